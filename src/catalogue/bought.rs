//! Does a price name something that is bought? The words of chemistries and of the lines of a parts list.

use super::price::{OwnPrice, line_words};
use super::rows::Rows;

/// What it names that nothing is called by, each with its place in the file.
pub(super) fn unknown(price: &OwnPrice, rows: &Rows) -> Vec<(usize, String)> {
    let mut told = Vec::new();
    if let Some(named) = price.chemistry.as_ref().filter(|c| rows.chemistry(c.get_ref()).is_none()) {
        let keys: Vec<&str> = rows.chemistries.iter().map(|c| c.key.as_str()).collect();
        let name = named.get_ref();
        told.push((
            named.span().start,
            format!("`chemistry` is “{name}”, which is none; they are {}", keys.join(", ")),
        ));
    }
    if let Some(part) = &price.part {
        let known = vocabulary(rows);
        for word in line_words(part.get_ref()).filter(|word| !is_known(&known, word)) {
            let near = known.iter().filter(|k| k.len() > 2).map(|k| (strsim::damerau_levenshtein(k, &word), k));
            let near = near.min_by_key(|(slips, _)| *slips).filter(|(slips, _)| *slips <= 2);
            let help = near.map_or_else(
                || "take words from the lines that `loomwright papers` lists in parts-list".to_string(),
                |(_, near)| format!("did you mean “{near}”?"),
            );
            told.push((part.span().start, format!("`part` says “{word}”, as no line of a parts list does; {help}")));
        }
    }
    told
}

/// Numbers, sizes and ratings are in no list of words.
fn is_known(known: &[String], word: &str) -> bool {
    !word.chars().any(char::is_alphabetic)
        || word.chars().any(|c| c.is_ascii_digit())
        || known.iter().any(|k| k == word)
}

/// What lines of a parts list say: our own words, and the names of what is in the catalogue. A plan's own names are
/// not among them: prices by those belong into that plan.
fn vocabulary(rows: &Rows) -> Vec<String> {
    let names = rows.chemistries.iter().map(|c| c.name.as_str());
    let names = names.chain(rows.insulations.iter().map(|i| i.name.as_str()));
    let names = names.chain(rows.fuse_styles.iter().map(|f| f.name.as_str()));
    let names = names.chain(rows.workshop.plugs.iter().map(|p| p.name.as_str()));
    let names = names.chain(rows.workshop.colours.iter().map(|c| c.colour.as_str()));
    let names = names.chain(rows.conductors.iter().map(|c| c.label.as_str()));
    names.chain([WORDS]).flat_map(line_words).collect()
}

/// The words of the lines themselves, as the parts list writes them.
const WORDS: &str = "\
    a across adhesive-lined ah along also and angle array as at awg bar battery bent block blocks board body bolt both box breaker bus by cable \
    charger charging circuit circuits class clip colour common conduit controller count cross current cut-off dc-dc device direct each \
    edges enable end every fits flat flexible floor for from fuse fuse-link grommet group heat-proof here hold-down holder \
    hole hook in insert inverter is it its kg kit kw label large length lid light lined lining live long lower lug m main mains \
    make measure metal mm mm² negative none not notice nut nuts nylon of on one or out over own panel panels' part parts \
    piece pieces pin plain plate plug plug's positive practice printed relay return ring rod rubber sealed second see sense series \
    service set shrink side size sized sleeve socket sockets solar spacer spare spreader starter stays steel strap string strip \
    strips stud studs switch t takes terminal that the their them there third this to tray tube two unplugged upper v vehicle \
    voltage w wall washers what when while wire with wrap x";
