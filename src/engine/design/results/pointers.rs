//! Where in an answer does the number stand that a working explains?
//!
//! As JSON Pointers (RFC 6901): names and positions from the top of the answer,
//! as `/runs/2/size/drop_v`. Keys hold neither `/` nor `~`, so nothing is escaped.

use super::fact::{At, Content, Named, Thing, Topic, contents};
use std::collections::BTreeMap;

/// The results that each working explains.
pub fn pointers<T: Thing>(thing: &T, at: &At<'_>) -> BTreeMap<Topic, Vec<String>> {
    let mut found = BTreeMap::new();
    group(contents(thing, &At { workings: false, topics: true, ..*at }), "", &mut found);
    found
}

fn group(results: Vec<Named>, path: &str, found: &mut BTreeMap<Topic, Vec<String>>) {
    for Named { key, content, topic } in results {
        let here = format!("{path}/{key}");
        if let Some(topic) = topic {
            found.entry(topic).or_default().push(here.clone());
        }
        walk(content, &here, found);
    }
}

fn walk(content: Content, path: &str, found: &mut BTreeMap<Topic, Vec<String>>) {
    match content {
        Content::Group(results) => group(results, path, found),
        Content::List(items) => {
            for (n, item) in items.into_iter().enumerate() {
                walk(item, &format!("{path}/{n}"), found);
            }
        }
        _ => {}
    }
}
