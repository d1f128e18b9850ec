//! The PDF, read back by other programs: the pages there should be, each numbered and stamped, no
//! value torn by a line's end, nothing smaller than 7 points, pictures as lines and letters.
//!
//! Needs `pdfinfo`, `pdftotext`, `pdffonts` and `pdfimages` (poppler-utils). Where they are missing the
//! test says so and passes; `.ci/run` installs them.

use crate::plans::{CATALOGUE, all_examples, designed, tree_plan};
use loomwright::papers::{Job, Look, PageSize, PaperFile, Stamp, bundle};
use std::path::Path;
use std::process::Command;

const STAMP: &str = "checksum 0123 4567";

fn volumes(text: &str, page: PageSize) -> Vec<PaperFile> {
    let (plan, design) = designed(text);
    let stamp = Stamp { dated: Some("2026-11-26".into()), checksum: "0123456789abcdef".into() };
    let look = Look { page, ..Look::default() };
    let files = bundle(&Job { plan: &plan, catalogue: &CATALOGUE, design: &design, beside: &[] }, &look, &stamp);
    files.into_iter().filter(|f| f.name.ends_with(".pdf")).collect()
}

fn tiny() -> String {
    "format = 2\n[service_battery]\nchemistry = \"agm\"\n[[run]]\nfrom = \"service battery\"\nto = \"panel\"\n\
     length_m = 1\n[[load]]\nname = \"lamp\"\nat = \"panel\"\npower_w = 6\nduty = { hours_a_day = 2 }\n"
        .into()
}

fn said(program: &str, arguments: &[&str], file: &Path) -> String {
    let output = Command::new(program).args(arguments).arg(file).output().unwrap();
    assert!(output.status.success(), "{program}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into()
}

/// A word of a page as `pdftotext -bbox` has it: left, top, right, bottom in points, and the word.
type Word = ([f64; 4], String);

fn words(page: &str) -> Vec<Word> {
    let number = |line: &str, key: &str| -> f64 {
        line.split(&format!("{key}=\"")).nth(1).and_then(|p| p.split('"').next()).unwrap().parse().unwrap()
    };
    let word = |line: &str| {
        let at = ["xMin", "yMin", "xMax", "yMax"].map(|key| number(line, key));
        (at, line.split('>').nth(1).unwrap().split('<').next().unwrap().to_string())
    };
    page.lines().filter(|l| l.trim_start().starts_with("<word ")).map(word).collect()
}

/// Most pages of the set and of the workings.
struct Most(usize, usize);

fn look_at(name: &str, file: &PaperFile, page: PageSize, most: usize, folder: &Path) {
    let path = folder.join(format!("{name}-{page:?}-{}", file.name));
    std::fs::write(&path, &file.content).unwrap();
    if let Some(folder) = std::env::var_os("LOOMWRIGHT_LOOK") {
        std::fs::copy(&path, Path::new(&folder).join(path.file_name().unwrap())).unwrap();
    }
    let info = said("pdfinfo", &[], &path);
    let pages: usize = info.lines().find_map(|l| l.strip_prefix("Pages:")).unwrap().trim().parse().unwrap();
    assert!((1..=most).contains(&pages), "{name}: {} has {pages} pages, not up to {most}", file.name);
    let shown = info.lines().find_map(|l| l.strip_prefix("Page size:")).unwrap();
    let points: Vec<f64> = shown.split(' ').filter_map(|w| w.parse().ok()).collect();
    // ISO 216 and ANSI/ASME Y14.1, in points of 1/72 inch.
    let [wide, high] = if page == PageSize::A4 { [595.3, 841.9] } else { [612.0, 792.0] };
    assert!((points[0] - wide).abs() < 0.2 && (points[1] - high).abs() < 0.2, "{name}: {shown}");
    let out = Command::new("pdftotext").arg("-bbox").arg(&path).arg("-").output().unwrap();
    let out = String::from_utf8_lossy(&out.stdout).to_string();
    for (n, page) in out.split("<page ").skip(1).enumerate() {
        one_page(&format!("{name}, {}, page {}", file.name, n + 1), &words(page), [wide, high], (n + 1, pages));
    }
    let fonts = said("pdffonts", &[], &path);
    let fonts: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(
        !fonts.is_empty() && fonts.iter().all(|l| l.contains("LiberationSans") && l.contains("yes yes yes")),
        "{fonts:?}"
    );
    if name == "usual" {
        grey(&path);
    }
    assert_eq!(said("pdfimages", &["-list"], &path).lines().count(), 2, "pictures are vectors, nothing is a bitmap");
}

/// Nothing on any page has a colour.
fn grey(path: &Path) {
    let out = Command::new("pdftoppm").args(["-r", "18"]).arg(path).output().unwrap().stdout;
    let mut rest = out.as_slice();
    let mut pages = 0;
    while rest.starts_with(b"P6") {
        let mut head = rest.splitn(4, |b| *b == b'\n');
        let size = String::from_utf8_lossy(head.nth(1).unwrap()).to_string();
        let data = head.nth(1).unwrap();
        let pixels: usize = size.split(' ').map(|n| n.parse::<usize>().unwrap()).product();
        assert!(data[..3 * pixels].chunks(3).all(|p| p[0] == p[1] && p[1] == p[2]), "page {} has a colour", pages + 1);
        rest = &data[3 * pixels..];
        pages += 1;
    }
    assert!(pages > 5, "{pages} pages were drawn");
}

fn one_page(name: &str, words: &[Word], [wide, high]: [f64; 2], (number, pages): (usize, usize)) {
    let text: String = words.iter().map(|w| w.1.as_str()).collect::<Vec<_>>().join(" ");
    assert!(text.contains(STAMP), "{name} has no stamp");
    assert!(text.contains(&format!("page {number} of {pages}")), "{name} has no number");
    assert!(words.len() > 20, "{name} is all but empty");
    for (at, word) in words {
        let inside = at[0] > 20.0 && at[2] < wide - 20.0 && at[1] > 20.0 && at[3] < high - 15.0;
        assert!(inside, "{name}: `{word}` stands at {at:?}");
        // Poppler tells a word of this font 0.9385 letter sizes high.
        assert!(at[3] - at[1] > 7.0 * 0.938, "{name}: `{word}` is {} high", at[3] - at[1]);
    }
    for (n, a) in words.iter().enumerate() {
        for b in &words[n + 1..] {
            let over = |k: usize| a.0[k + 2].min(b.0[k + 2]) - a.0[k].max(b.0[k]);
            assert!(over(0) < 0.6 || over(1) < 2.6, "{name}: `{}` and `{}` overlap: {:?} {:?}", a.1, b.1, a.0, b.0);
        }
    }
}

#[test]
fn a_tiny_a_usual_and_a_large_plan_print_as_they_should() {
    if ["pdfinfo", "pdftotext"].iter().any(|p| Command::new(p).arg("-v").output().is_err()) {
        println!("skipped: no pdfinfo and pdftotext here (poppler-utils)");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let usual = all_examples().next().unwrap().1.to_string();
    let large = tree_plan(30, |n| 3 + (n - 3) / 3).replace("place ", "the place behind the wheel arch ");
    let plans = [("tiny", tiny(), Most(32, 18)), ("usual", usual, Most(75, 60)), ("large", large, Most(110, 90))];
    for (name, text, most) in plans {
        for page in [PageSize::A4, PageSize::Letter] {
            let files = volumes(&text, page);
            assert_eq!(files.iter().map(|f| f.name.as_str()).collect::<Vec<_>>(), ["papers.pdf", "workings.pdf"]);
            look_at(name, &files[0], page, most.0, folder.path());
            look_at(name, &files[1], page, most.1, folder.path());
        }
    }
}

/// Each paper begins on the page that the contents say, and the card is one page.
#[test]
fn the_contents_name_the_page_of_each_paper() {
    if Command::new("pdftotext").arg("-v").output().is_err() {
        println!("skipped: no pdftotext here (poppler-utils)");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in all_examples() {
        let path = folder.path().join(format!("{name}.pdf"));
        std::fs::write(&path, &volumes(text, PageSize::A4)[0].content).unwrap();
        let out = Command::new("pdftotext").arg("-layout").arg(&path).arg("-").output().unwrap();
        let text = String::from_utf8_lossy(&out.stdout).to_string();
        let pages: Vec<&str> = text.split('\u{c}').collect();
        let heads = [
            ("job-card", "Job card"),
            ("connection-drawing", "Connection drawing"),
            ("connections", "Connections"),
            ("cut-list", "Cut list"),
            ("parts-list", "Parts list"),
            ("owner-card", "Owner's card"),
            ("inspection", "Yearly inspection"),
        ];
        let begins =
            |head: &str| pages.iter().position(|p| p.trim_start().starts_with(&format!("{head} –"))).map(|n| n + 1);
        for (paper, head) in heads {
            let line = pages[0]
                .lines()
                .find(|l| l.trim_start().starts_with(&format!("{paper} ")))
                .unwrap_or_else(|| panic!("{name}: {paper}"));
            let page: usize = line.split_whitespace().last().unwrap().parse().unwrap();
            assert_eq!(begins(head), Some(page), "{name}: {paper}: {line}");
        }
        let card = begins("Owner's card").unwrap();
        assert!(
            pages[card].trim_start().starts_with("Yearly inspection"),
            "{name}: the card is one page: {}",
            pages[card]
        );
    }
}
