//! The HTML as a browser prints it: nothing wider than an A4 page, no value torn by a
//! line's end, no error on its console, the pages there should be.
//!
//! Needs `chromium` and, to count pages and read them, `pdfinfo` and
//! `pdftotext` (poppler-utils). Where they are missing the test says so and
//! passes; `.ci/run` installs them.

use crate::plans::{CATALOGUE, all_examples, designed, tree_plan};
use loomwright::papers::{Job, Look, PaperFile, Stamp, bundle};
use std::path::Path;
use std::process::Command;

/// The first of these programs that can be started.
fn found(names: &[&'static str]) -> Option<&'static str> {
    names.iter().copied().find(|n| Command::new(n).arg("--version").output().is_ok())
}

fn papers(text: &str) -> Vec<PaperFile> {
    let (plan, design) = designed(text);
    let stamp = Stamp { dated: Some("2026-11-26".into()), checksum: "0123456789abcdef".into() };
    bundle(&Job { plan: &plan, catalogue: &CATALOGUE, design: &design, beside: &[] }, &Look::default(), &stamp)
}

/// Each sheet is taken to the workshop by itself, so each says when the plan must not be built.
#[test]
fn every_sheet_of_a_plan_with_a_stop_says_so() {
    let example = loomwright::plan::default_example().text;
    let stops = example.replace("kind = \"dc-dc\"", "kind = \"dc-dc\"\noutput_v = 16");
    for (text, said) in [(example, false), (stops.as_str(), true)] {
        for file in papers(text).iter().filter(|f| f.name.ends_with(".md")) {
            assert_eq!(file.text().contains("Do not build this plan"), said, "{}", file.name);
        }
    }
}

/// A page is its own file: nothing is fetched and nothing is run.
#[test]
fn pages_stand_alone() {
    for (name, text) in all_examples() {
        for file in papers(text).iter().filter(|f| f.name.ends_with(".html")) {
            for word in ["<script", "http://", "https://", "src=", "@import", "url(", "onload"] {
                let content = file.text().replace("http://www.w3.org/2000/svg", "");
                assert!(!content.contains(word), "{name}: {} holds {word}", file.name);
            }
        }
    }
}

/// What the page says about itself once it is laid out as wide as A4 prints: how wide it is, what
/// sticks out, which value with a digit in it (a hyphen may break) stands on two lines, and which letters are under
/// 7 points (9.33 pixels of 1/96 inch).
const PROBE: &str = "<script>addEventListener('load',function(){var w=[];\
document.querySelectorAll('body *').forEach(function(e){var r=e.getBoundingClientRect();\
if(r.right>document.documentElement.clientWidth+1||e.scrollWidth>e.clientWidth+1&&getComputedStyle(e).overflowX!='visible')\
w.push(e.tagName+' '+e.className+' '+(e.textContent||'').slice(0,40))});\
var t=document.createTreeWalker(document.body,4),n,m,re=/[^ \\n–-]*[0-9][^ \\n–-]*/g;while(n=t.nextNode()){re.lastIndex=0;\
while(m=re.exec(n.data)){var r=document.createRange();r.setStart(n,m.index);r.setEnd(n,m.index+m[0].length);\
var q=r.getClientRects();if(m[0].length<18&&!n.parentNode.closest('svg')&&q.length>1&&q[q.length-1].top>q[0].top+4)w.push('TORN '+m[0])}\
if(n.data.trim()&&!n.parentNode.closest('svg')&&n.parentNode.tagName!='STYLE'&&parseFloat(getComputedStyle(n.parentNode).fontSize)<9.32)w.push('SMALL '+n.data.slice(0,20))}\
document.title='width '+document.documentElement.scrollWidth+' of '+document.documentElement.clientWidth+' '+w.join('|')});</script>";

fn browser(program: &str, arguments: &[&str]) -> (String, String) {
    let home = tempfile::tempdir().unwrap();
    let output = Command::new(program)
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--enable-logging=stderr"])
        .arg(format!("--user-data-dir={}", home.path().display()))
        .args(arguments)
        .output()
        .unwrap();
    (String::from_utf8_lossy(&output.stdout).into(), String::from_utf8_lossy(&output.stderr).into())
}

#[test]
fn pages_fit_a4_and_print_as_many_pages_as_they_should() {
    let Some(chromium) = found(&["chromium", "chromium-browser", "google-chrome"]) else {
        println!("skipped: no chromium here; install it to have the pages opened and printed");
        return;
    };
    let folder = tempfile::tempdir().unwrap();
    let long_names =
        tree_plan(30, |n| 3 + (n - 3) / 3).replace("place ", "the place behind the wheel arch with a long name ");
    let plans = [all_examples().next().unwrap().1.to_string(), tree_plan(60, |n| 3 + (n - 3) / 3), long_names];
    for (n, text) in plans.iter().enumerate() {
        // Starting a browser takes its time: of the large plan the papers that grow most, and the card.
        let looked_at = |f: &&PaperFile| match f.name.as_str() {
            "owner-card.html" => true,
            "report.html" | "labels.html" => n < 2,
            name => name.ends_with(".html") && n == 0,
        };
        let files: Vec<PaperFile> = papers(text).into_iter().filter(|f| looked_at(&f)).collect();
        probe(chromium, folder.path(), &files);
        for file in &files {
            let path = folder.path().join(format!("{n}-{}", file.name));
            std::fs::write(&path, &file.content).unwrap();
            // Letter is the shorter page: a card that fits there fits A4.
            if n == 0 || file.name != "owner-card.html" {
                print_and_count(chromium, &path, n, file, "A4", [595.0, 842.0]);
            }
            if file.name == "owner-card.html" || n == 0 && file.name == "report.html" {
                print_and_count(chromium, &path, n, file, "Letter", [612.0, 792.0]);
            }
        }
    }
}

/// All papers one below the other in one window, as wide as A4 less its margins: 182 mm, 688 CSS pixels.
fn probe(chromium: &str, folder: &Path, files: &[PaperFile]) {
    let inside = |f: &PaperFile| f.text().split("<body>").nth(1).unwrap().split("</body>").next().unwrap().to_string();
    let (head, _) = files[0].text().split_once("<body>").unwrap();
    let all: String = files.iter().map(inside).collect();
    let path = folder.join("probe.html");
    std::fs::write(&path, format!("{head}<body>{all}{PROBE}</body></html>")).unwrap();
    let url = format!("file://{}", path.display());
    let (dom, said) = browser(chromium, &["--window-size=688,1000", "--dump-dom", &url]);
    let title = dom.split("<title>").nth(1).and_then(|t| t.split("</title>").next()).unwrap_or_default();
    let width: Vec<&str> = title.split(' ').collect();
    assert!(title.starts_with("width ") && width[1] == width[3] && width.len() <= 5, "{title}");
    assert!(!said.contains("CONSOLE"), "{said}");
}

/// Fewest and most pages of each paper, for the default plan and for larger ones.
fn expected_pages(name: &str) -> [(u32, u32); 2] {
    match name {
        "report.html" => [(8, 40), (15, 100)],
        "workings.html" => [(4, 40), (10, 100)],
        // Always, whatever the plan.
        "owner-card.html" => [(1, 1), (1, 1)],
        "inspection.html" => [(1, 2), (1, 2)],
        "contents.html" | "hand-over.html" => [(1, 1), (1, 1)],
        "job-card.html" => [(2, 5), (4, 20)],
        "connection-drawing.html" => [(3, 8), (5, 40)],
        "label-sheet.html" => [(1, 4), (2, 12)],
        "cut-list.html" | "parts-list.html" => [(1, 2), (2, 6)],
        "connections.html" => [(2, 4), (4, 20)],
        "labels.html" => [(1, 2), (4, 12)],
        _ => [(2, 6), (4, 40)],
    }
}

/// Print on a paper size (in points) as the print dialogue would set it.
fn print_and_count(chromium: &str, path: &Path, plan: usize, file: &PaperFile, paper: &str, size: [f64; 2]) {
    let (pdf, name) = (path.with_extension("pdf"), &file.name);
    let set = file.text().replace("@page { margin", &format!("@page {{ size: {paper}; margin"));
    std::fs::write(path, set).unwrap();
    let (url, print) = (format!("file://{}", path.display()), format!("--print-to-pdf={}", pdf.display()));
    browser(chromium, &["--no-pdf-header-footer", &print, &url]);
    if let Some(folder) = std::env::var_os("LOOMWRIGHT_LOOK") {
        std::fs::copy(&pdf, Path::new(&folder).join(format!("{plan}-{name}.pdf"))).unwrap();
    }
    if found(&["pdfinfo"]).is_none() || found(&["pdftotext"]).is_none() {
        println!("pages not counted: no pdfinfo and pdftotext here (poppler-utils)");
        return;
    }
    let info = Command::new("pdfinfo").arg(&pdf).output().unwrap();
    let info = String::from_utf8_lossy(&info.stdout).to_string();
    let pages: u32 = info.lines().find_map(|l| l.strip_prefix("Pages:")).unwrap().trim().parse().unwrap();
    let shown = info.lines().find_map(|l| l.strip_prefix("Page size:")).unwrap();
    let points: Vec<f64> = shown.split(' ').filter_map(|w| w.parse().ok()).collect();
    assert!((points[0] - size[0]).abs() < 1.5 && (points[1] - size[1]).abs() < 1.5, "{paper}: {shown}");
    let (least, most) = expected_pages(name)[plan.min(1)];
    assert!((least..=most).contains(&pages), "{name} of plan {plan} prints on {pages} pages, not {least} to {most}");
    let text = Command::new("pdftotext").arg("-layout").arg(&pdf).arg("-").output().unwrap();
    let text = String::from_utf8_lossy(&text.stdout).to_string();
    let empty = text.split('\u{c}').take(pages as usize).filter(|p| p.trim().is_empty()).count();
    assert_eq!(empty, 0, "{name} prints {empty} empty pages");
    let numbered = (1..=pages).all(|n| text.contains(&format!("page {n} of {pages}")));
    assert!(numbered, "{name}: a page has no number");
    assert_eq!(text.matches("checksum 0123 4567").count() as u32, pages + 1, "{name}: at its head and at each foot");
}
