//! From SVG to pixels, by `resvg`, with the fonts that are installed.

use resvg::tiny_skia::Pixmap;
use resvg::usvg::{Options, Tree};
use std::path::Path;

/// Pixels for a millimetre.
pub const SCALE: f32 = 5.0;

/// Draw it. Where `LOOMWRIGHT_LOOK` names a folder, the picture is kept there to be looked at.
pub fn picture(name: &str, svg: &str) -> Pixmap {
    let mut options = Options::default();
    options.fontdb_mut().load_system_fonts();
    let tree = Tree::from_str(svg, &options).unwrap_or_else(|e| panic!("{name} is no SVG: {e}"));
    let scale = SCALE * 25.4 / 96.0;
    let size = tree.size().to_int_size().scale_by(scale).unwrap();
    let mut pixmap = Pixmap::new(size.width(), size.height()).unwrap();
    pixmap.fill(resvg::tiny_skia::Color::WHITE);
    let transform = resvg::tiny_skia::Transform::from_scale(scale, scale);
    resvg::render(&tree, transform, &mut pixmap.as_mut());
    if let Some(folder) = std::env::var_os("LOOMWRIGHT_LOOK") {
        pixmap.save_png(Path::new(&folder).join(format!("{name}.png"))).unwrap();
    }
    pixmap
}

/// Share of the pixels in a rectangle (in shares of the picture) that are not white.
pub fn ink(pixmap: &Pixmap, left: f32, top: f32, right: f32, bottom: f32) -> f32 {
    let (w, h) = (pixmap.width() as f32, pixmap.height() as f32);
    let (mut dark, mut all) = (0, 0);
    for y in (top * h) as u32..(bottom * h) as u32 {
        for x in (left * w) as u32..(right * w) as u32 {
            all += 1;
            let p = pixmap.pixel(x, y).unwrap();
            dark += u32::from(p.red() < 200 || p.green() < 200 || p.blue() < 200);
        }
    }
    dark as f32 / all.max(1) as f32
}

/// Whether every pixel is a grey: nothing depends on colour.
pub fn is_grey(pixmap: &Pixmap) -> bool {
    pixmap.pixels().iter().all(|p| p.red() == p.green() && p.green() == p.blue() && p.alpha() == 255)
}
