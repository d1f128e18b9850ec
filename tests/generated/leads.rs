//! The default plan with more boards and leads.

use loomwright::plan::default_example;

/// The default plan and so many boards behind its cut-off, with so many lamps on leads of their own.
pub fn text(boards: usize, leads: usize) -> String {
    let mut text = default_example().text.to_string();
    for board in 0..boards {
        text += &format!(
            "\n[[board]]\nname = \"board {board}\"\nstyle = \"blade-c\"\n[[run]]\nfrom = \"cut-off\"\nto = \"board {board}\"\nlength_m = {}\n",
            2 + board % 5
        );
    }
    for lead in 0..leads {
        text += &format!(
            "\n[[load]]\nname = \"load {lead}\"\nat = \"board {}\"\npower_w = {}\nlead_m = {}\nduty = {{ hours_a_day = 1 }}\n",
            lead % boards,
            3 + lead % 20,
            1 + lead % 4
        );
    }
    text
}
