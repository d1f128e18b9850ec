//! Roles and how each looks: in 16 colours, or without any.
//!
//! Only the terminal's own colours are used, so that light and dark
//! backgrounds both work. Every role that matters is told by a word or a sign
//! as well; the theme without colour proves it.

use ratatui::style::{Color, Modifier, Style};

/// What a piece of text is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Role {
    /// Ordinary text.
    #[default]
    Text,
    /// Less important: units, defaults, hints.
    Muted,
    /// Column heads and titles.
    Heading,
    /// A value given by the user.
    Given,
    /// A value chosen by the engine.
    Chosen,
    /// Something that fits.
    Good,
    /// A finding of the worst sort, or an error.
    Stop,
    /// A caution.
    Caution,
    /// A note.
    Note,
    /// A key to press.
    Key,
}

/// Colours or none.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// The terminal's 16 colours.
    #[default]
    Colour,
    /// Bold, underline and reverse only.
    Plain,
}

impl Theme {
    /// How a role looks.
    pub fn style(self, role: Role) -> Style {
        let base = Style::new();
        let style = match role {
            Role::Text | Role::Given | Role::Note => base,
            Role::Muted => base.add_modifier(Modifier::DIM),
            Role::Heading | Role::Key => base.add_modifier(Modifier::BOLD),
            Role::Chosen => base.fg(Color::Cyan),
            Role::Good => base.fg(Color::Green),
            Role::Stop => base.fg(Color::Red).add_modifier(Modifier::BOLD),
            Role::Caution => base.fg(Color::Yellow).add_modifier(Modifier::BOLD),
        };
        self.without_colour_if_plain(style)
    }

    /// The cell in hand.
    pub fn focus(self) -> Style {
        Style::new().add_modifier(Modifier::REVERSED)
    }

    /// The letter of a word that is the key for it.
    pub fn letter(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD | Modifier::UNDERLINED)
    }

    /// The row in hand of a pane that is not being worked in.
    pub fn in_hand(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// A number that changed.
    pub fn changed(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD | Modifier::UNDERLINED)
    }

    /// The border of the pane being worked in.
    pub fn active_border(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// Text being typed.
    pub fn input(self) -> Style {
        Style::new().add_modifier(Modifier::UNDERLINED)
    }

    /// The nth curve of a plot, in colours that mean nothing else.
    pub fn curve(self, n: usize) -> Style {
        let colours = [Color::Magenta, Color::Reset, Color::LightBlue, Color::LightMagenta];
        self.without_colour_if_plain(Style::new().fg(colours[n % colours.len()]))
    }

    fn without_colour_if_plain(self, style: Style) -> Style {
        match self {
            Theme::Colour => style,
            Theme::Plain => Style { fg: None, bg: None, ..style },
        }
    }
}
