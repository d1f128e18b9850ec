//! Diagram: how it is all connected, drawn as trees from each battery.

use super::pane::{Body, Pane, Text};
use super::scene::Scene;

/// The one pane: the drawing.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    let _ = scene;
    vec![Pane { title: "Diagram".into(), body: Body::Text(Text::default()) }]
}
