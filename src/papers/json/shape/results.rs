//! Names of the top, of findings, workings and questions.

use super::Object;

pub(super) const OBJECTS: &[Object] = &[
    Object {
        at: &[""],
        names: &[
            ("version", "1; grows when a name goes or changes its meaning"),
            ("title", "report: title of the plan"),
            ("plan", "check: name of the file"),
            ("counts", "how many findings of each severity"),
            ("findings", "worst first"),
            ("budget", "report: a day's energy"),
            ("battery", "report: the service battery"),
            ("charger", "report: the charger and its bounds"),
            ("copper", "report: copper of all runs"),
            ("runs", "report: one for each run, in the plan's order"),
            ("loads", "report: what each load gets, in the plan's order"),
            ("cut_off", "report, cut-off: the low-voltage disconnect"),
            ("carrier", "report: what holds the battery; null when none is planned"),
            ("test_sheet", "report: what the finished wiring should measure"),
            ("workings", "with --workings: how each number came about"),
            ("question", "cable, cut-off: what was asked"),
            ("size", "cable: the size to take; null when none is enough"),
            ("ruling", "cable: what decided the size"),
            ("air_c", "cable: air along the cable"),
            ("limits", "cable: how far that size goes"),
            ("sizes", "cable: every size side by side"),
        ],
    },
    Object {
        at: &["counts"],
        names: &[("stop", "do not build it"), ("caution", "think before building"), ("note", "good to know")],
    },
    Object {
        at: &["findings[]"],
        names: &[
            ("kind", "stable name of the sort of finding"),
            ("severity", "stop, caution or note"),
            ("about", "what it is about, in words"),
            ("text", "one sentence with the numbers"),
            ("rule", "the rule and its source"),
            ("remedies", "what helps"),
            ("place", "the field that mends it; null when none does"),
        ],
    },
    Object {
        at: &["findings[].remedies[]"],
        names: &[("words", "in words, with a number"), ("edit", "the edit that does it; null when no single one does")],
    },
    Object {
        at: &["findings[].place", "findings[].remedies[].edit"],
        names: &[
            ("section", "table of the plan file; empty for the keys at the top"),
            ("index", "which item of a list, from 0"),
            ("key", "key in that table"),
            ("line", "line in the file, from 1; null where the file does not have it"),
            ("column", "column in characters, from 1"),
            ("value", "edit: the new value; null takes the key out"),
        ],
    },
    Object {
        at: &["workings[]"],
        names: &[
            ("about", "what the number belongs to"),
            ("number", "its stable name"),
            ("name", "what it is, in words"),
            ("formula", "arithmetic in the symbols of the inputs; empty when read from a table or solved for"),
            ("inputs", "the numbers put in"),
            ("result", "value and unit"),
            ("source", "where the rule comes from"),
            ("notes", "what else to know"),
        ],
    },
    Object {
        at: &["workings[].inputs[]"],
        names: &[
            ("symbol", "as in the formula"),
            ("meaning", "what it is"),
            ("value", "value and unit"),
            ("from", "the working it comes from; null when it is given"),
        ],
    },
    Object {
        at: &["workings[].inputs[].from"],
        names: &[("about", "what that number belongs to"), ("number", "its stable name")],
    },
    Object {
        at: &["workings[].result", "workings[].inputs[].value"],
        names: &[("value", "the number; shares are 0 to 1"), ("unit", "its unit; % marks a share")],
    },
    Object {
        at: &["question"],
        names: &[
            ("current_a", "steady current"),
            ("length_m", "cable: one way"),
            ("drop_share", "cable: most that may be lost, as a share of 12 V"),
            ("insulation", "cable: insulation class"),
            ("place", "cable: what it runs through"),
            ("air_c", "cable: air as asked; null when the place's"),
            ("bundled_with", "cable: other loaded cables in the bundle"),
            ("chemistry", "cut-off: key of the chemistry"),
            ("capacity_ah", "cut-off: rated capacity"),
        ],
    },
];
