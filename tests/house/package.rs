//! What a stranger installs: what the package says of itself, and what is in it.

use std::fs;
use std::path::Path;
use std::process::Command;

fn manifest() -> toml::Table {
    fs::read_to_string(super::root().join("Cargo.toml")).unwrap().parse().unwrap()
}

/// The fields that <https://doc.rust-lang.org/cargo/reference/manifest.html> names, and its bounds: five keywords of
/// twenty signs, categories of the list of slugs. The README tells what changed in this version.
#[test]
fn the_package_says_what_it_is() {
    let package = manifest()["package"].as_table().unwrap().clone();
    for field in ["name", "version", "edition", "rust-version", "description", "license", "readme"] {
        assert!(package[field].as_str().is_some_and(|text| !text.is_empty()), "{field}");
    }
    let listed = |field: &str| -> Vec<String> {
        package[field].as_array().unwrap().iter().map(|word| word.as_str().unwrap().to_string()).collect()
    };
    let keywords = listed("keywords");
    assert!((1..=5).contains(&keywords.len()) && keywords.iter().all(|k| k.len() <= 20), "{keywords:?}");
    assert_eq!(listed("categories"), ["command-line-utilities", "science"]);
    assert!(super::root().join(package["readme"].as_str().unwrap()).is_file());
    let version = package["version"].as_str().unwrap();
    let readme = fs::read_to_string(super::root().join("README.md")).unwrap();
    let (_, changed) = readme.split_once("## What changed").unwrap();
    assert!(changed.trim_start().starts_with(&format!("**{version}**")), "what changed in {version}?");
}

/// `.ci/package` with this very program: unpacked, it runs from there, with a page for each command and completions.
#[cfg(target_os = "linux")]
#[test]
fn the_debian_package_holds_program_pages_and_completions() {
    if !Command::new("dpkg-deb").arg("--version").output().is_ok_and(|o| o.status.success()) {
        eprintln!("not checked: this machine has no dpkg-deb");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let (made, there) = (folder.path().join("made"), folder.path().join("there"));
    let ends = |command: &mut Command| {
        let output = command.output().unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    };
    let mut pack = Command::new(super::root().join(".ci/package"));
    // This program is large, and packing it small would take a minute.
    pack.env("DPKG_DEB_COMPRESSOR_TYPE", "none");
    ends(pack.arg(env!("CARGO_BIN_EXE_loomwright")).arg(&made));
    let named = |path: &Path| path.extension().is_some_and(|end| end == "deb");
    let package = fs::read_dir(&made).unwrap().map(|e| e.unwrap().path()).find(|path| named(path)).unwrap();
    let field = |name: &str| ends(Command::new("dpkg-deb").arg("-f").arg(&package).arg(name)).trim().to_string();
    let version = manifest()["package"]["version"].as_str().unwrap().to_string();
    assert_eq!((field("Package").as_str(), field("Version")), ("loomwright", version.clone()));
    ends(Command::new("dpkg-deb").arg("-x").arg(&package).arg(&there));
    let program = there.join("usr/bin/loomwright");
    assert_eq!(ends(Command::new(&program).arg("--version")).trim(), format!("loomwright {version}"));
    for command in ends(Command::new(&program).args(["man", "--list"])).lines() {
        let page = there.join(format!("usr/share/man/man1/loomwright-{command}.1.gz"));
        assert!(ends(Command::new("gzip").arg("-dc").arg(page)).contains(".SH SYNOPSIS"), "{command}");
    }
    // Where Debian's bash-completion, zsh and fish look (from memory).
    for path in [
        "bash-completion/completions/loomwright",
        "zsh/vendor-completions/_loomwright",
        "fish/vendor_completions.d/loomwright.fish",
    ] {
        let text = fs::read_to_string(there.join("usr/share").join(path)).unwrap();
        assert!(text.contains("loomwright") && text.contains("cut-off"), "{path}");
    }
}
