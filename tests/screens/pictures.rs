//! The committed pictures are what the screens draw now.
//!
//! To make them anew: `UPDATE_SCREENSHOTS=1 cargo test --test screens pictures`.

use crate::driver::catalogue;
use loomwright::screens::pictures;
use std::path::Path;

#[test]
fn the_committed_pictures_are_current() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("screenshots");
    let update = std::env::var_os("UPDATE_SCREENSHOTS").is_some();
    let mut stale = Vec::new();
    for (name, picture) in pictures(&catalogue()).unwrap() {
        let path = folder.join(&name);
        if update {
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(&path, &picture).unwrap();
        } else if std::fs::read_to_string(&path).unwrap_or_default() != picture {
            stale.push(name);
        }
    }
    assert!(stale.is_empty(), "not what is drawn now: {stale:?}; set UPDATE_SCREENSHOTS=1 to make them anew");
}
