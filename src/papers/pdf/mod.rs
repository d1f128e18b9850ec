//! Papers as one PDF, so that nobody needs a browser.
//!
//! The same blocks as in HTML, with the same measures: each paper begins a page, at the foot of
//! each page stands what it is made from and its number, and the pictures are lines and letters.
//!
//! - `setter`, `blocks`, `table`: what a block becomes: slabs that no page's end tears. `lines`: where lines end.
//! - `flow`: on which page each slab stands. `ink`: how it gets into the file. `face`: the letters.
//!
//! Fonts: Liberation Sans under the SIL Open Font License 1.1, which stands beside them.

mod blocks;
mod face;
mod flow;
mod ink;
mod lines;
mod setter;
mod slab;
mod style;
mod table;

use super::document::Document;
use super::plain::{Look, PageSize};
use super::stamp::{Stamp, VERSION};
use blocks::set;
use face::{Face, Faces};
use flow::{Frame, Page, pages};
use ink::Ink;
use krilla::annotation::{LinkAnnotation, Target};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Rect};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use setter::Setter;
use slab::{Item, MM};
use std::collections::BTreeMap;
use style::{CARD, FULL_CARD, SHEET, Style};

/// Letters at the foot of a page.
const FOOT: f64 = 7.5;
/// From the foot's line to the lower edge.
const FOOT_AT: f64 = 9.0 * MM;
/// Text is no wider, on any page.
const WIDEST: f64 = 182.0 * MM;

/// Width and height in points.
fn size(page: PageSize) -> (f64, f64) {
    match page {
        PageSize::A4 => (210.0 * MM, 297.0 * MM),
        PageSize::Letter => (8.5 * 72.0, 11.0 * 72.0),
    }
}

/// A paper on its pages.
pub struct Laid<'a> {
    paper: &'a Document,
    pages: Vec<Page<'a>>,
    left: f64,
    width: f64,
}

impl<'a> Laid<'a> {
    /// Lay a paper out. A card is set closer where it would not stay on one page.
    pub fn of(paper: &'a Document, look: &Look) -> Option<Laid<'a>> {
        let (faces, look) = (Faces::get()?, &look.of(paper));
        let styles: &[&Style] = if paper.card { &[&CARD, &FULL_CARD] } else { &[&SHEET] };
        let (wide, high) = size(look.page);
        let mut laid = None;
        for style in styles {
            let [_, above, below] = style.margins;
            let width = (wide - 2.0 * style.margins[0]).min(WIDEST);
            let left = (wide - width) / 2.0;
            let strips = set(paper, &Setter { faces, look, style, width });
            let frame = Frame { left, top: above, width, height: high - above - below };
            let pages = pages(strips, frame);
            let fits = pages.len() == 1;
            laid = Some(Laid { paper, pages, left, width });
            if fits {
                break;
            }
        }
        laid
    }

    /// How many pages it takes.
    pub fn count(&self) -> usize {
        self.pages.len()
    }

    /// Whether a letter of it is not in the fonts, and so stands there as an empty box.
    pub fn lacks_letters(&self) -> bool {
        let lacks = |text: &str| Faces::get().is_some_and(|faces| text.chars().any(|c| !faces.has(c)));
        let words = |item: &Item<'_>| matches!(item, Item::Words { text, .. } if lacks(text));
        self.pages.iter().flatten().any(words)
    }
}

/// Papers one behind the other as one file. None only where the fonts within this program are damaged.
pub fn pdf(title: &str, papers: &[&Laid<'_>], look: &Look, stamp: &Stamp) -> Option<Vec<u8>> {
    let faces = Faces::get()?;
    let (wide, high) = size(look.page);
    let count: usize = papers.iter().map(|laid| laid.count()).sum();
    let mut file = krilla::Document::new();
    let title = look.ink(title);
    let metadata = Metadata::new().title(title).creator(format!("loomwright {VERSION}")).language("en".into());
    file.set_metadata(metadata);
    let mut before = 0;
    let mut outline = Outline::new();
    for laid in papers {
        let begins = beginnings(laid, before);
        outline.push_child(entry(laid, &begins, look));
        for (n, items) in laid.pages.iter().enumerate() {
            let mut page = file.start_page_with(PageSettings::from_wh(wide as f32, high as f32)?);
            let mut links = Vec::new();
            let mut surface = page.surface();
            let mut ink = Ink { faces, surface: &mut surface };
            for item in items {
                ink.item(item);
                links.extend(page_of(&mut ink, item, &begins));
            }
            foot(
                &mut ink,
                laid,
                before + n + 1,
                count,
                high - FOOT_AT,
                [&look.ink(&stamp.words()), &look.ink(&laid.paper.title)],
            );
            surface.finish();
            links.into_iter().for_each(|link| page.add_annotation(link.into()));
            page.finish();
        }
        before += laid.count();
    }
    file.set_outline(outline);
    file.finish().ok()
}

/// Page, from 0, and height at which each part of a paper begins.
type Begins = BTreeMap<usize, (usize, f64)>;

fn beginnings(laid: &Laid<'_>, before: usize) -> Begins {
    let of = |(n, items): (usize, &Page<'_>)| {
        let begins = items.iter().filter_map(move |item| match item {
            Item::Begins { part, y } => Some((*part, (before + n, *y))),
            _ => None,
        });
        begins.collect::<Vec<_>>()
    };
    laid.pages.iter().enumerate().flat_map(of).collect()
}

fn to((page, y): (usize, f64)) -> XyzDestination {
    XyzDestination::new(page, Point::from_xy(0.0, (y - 2.0 * MM).max(0.0) as f32))
}

/// A paper in the list beside the pages, its parts below it.
fn entry(laid: &Laid<'_>, begins: &Begins, look: &Look) -> OutlineNode {
    let at = |part: usize| to(begins.get(&part).copied().unwrap_or_default());
    let mut node = OutlineNode::new(look.ink(&laid.paper.title), at(0));
    for (n, part) in laid.paper.parts().enumerate() {
        node.push_child(OutlineNode::new(look.ink(part), at(n + 1)));
    }
    node
}

/// The number of a part's page at the end of its line in the contents; the line leads there.
fn page_of(ink: &mut Ink<'_, '_>, item: &Item<'_>, begins: &Begins) -> Option<LinkAnnotation> {
    let Item::PageOf { part, left, right, y, size } = item else { return None };
    let at = begins.get(part)?;
    let number = (at.0 + 1).to_string();
    ink.words(right - ink.faces.width(&number, Face::Plain, *size), *y, Face::Plain, *size, &number);
    let rect = Rect::from_ltrb(*left as f32, (y - size) as f32, *right as f32, (y + 0.3 * size) as f32)?;
    Some(LinkAnnotation::new(rect, Target::Destination(to(*at).into())))
}

/// What it is made from, its title as far as there is room, and its number.
fn foot(ink: &mut Ink<'_, '_>, laid: &Laid<'_>, number: usize, count: usize, y: f64, [made_from, title]: [&str; 2]) {
    let width = |text: &str| ink.faces.width(text, Face::Plain, FOOT);
    let number = format!("page {number} of {count}");
    let room = laid.width - width(&number) - width(made_from) - 8.0 * MM;
    let mut short = title.to_string();
    while width(&short) > room && short.pop().is_some() {}
    let middle = laid.left + (width(&short) + 4.0 * MM).max((laid.width - width(made_from)) / 2.0);
    let right = laid.left + laid.width - width(&number);
    for (x, text) in
        [(laid.left, short.trim_end()), (middle.min(right - width(made_from) - 4.0 * MM), made_from), (right, &number)]
    {
        ink.words(x, y, Face::Plain, FOOT, text);
    }
}
