//! What a shell's user takes for granted: several files at once, `-`, hints, pages, completions, one answer in every locale.

use crate::run::{err, example_paths, out, program, run, run_with};

const STOPPED: &str = "tests/problems/run-to-nowhere.toml";
const UNREADABLE: &str = "tests/problems/misspelt-key.toml";

#[test]
fn several_plans_are_checked_and_the_worst_counts() {
    let examples = example_paths();
    let (one, two) = (examples[0].to_str().unwrap(), examples[1].to_str().unwrap());
    let status = |arguments: &[&str]| run(arguments).status.code();
    assert_eq!(status(&["check", one, two]), Some(0));
    assert_eq!(status(&["check", one, STOPPED, two]), Some(1));
    let mixed = run(&["check", UNREADABLE, STOPPED, one]);
    assert_eq!(mixed.status.code(), Some(2));
    assert!(err(&mixed).contains("did you mean"), "{}", err(&mixed));
    for name in [STOPPED, one] {
        let verdict = out(&mixed).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(verdict.contains(&format!("{name}: ")), "{name} is not judged: {verdict}");
    }
    // One JSON document for each plan, as programs that read them one by one want it.
    let json = out(&run(&["check", one, two, "--json"]));
    let plans: Vec<serde_json::Value> =
        serde_json::Deserializer::from_str(&json).into_iter().map(Result::unwrap).collect();
    let names: Vec<_> = plans.iter().map(|p| p["plan"].as_str().unwrap()).collect();
    assert_eq!(names, [one, two]);
    assert_eq!(status(&["check", one, two, "--readings", "meter.csv"]), Some(2));
}

/// The size alone is edited: every other line, comments among them, stays as it is.
#[test]
fn a_plan_is_mended_into_a_file_of_its_own() {
    let folder = std::env::temp_dir().join(format!("loomwright-mend-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let [wrong, out_at] = ["wrong.toml", "mended.toml"].map(|n| folder.join(n));
    let text = std::fs::read_to_string(&example_paths()[0]).unwrap();
    let length = text.lines().find(|l| l.starts_with("length_m = ")).unwrap();
    let with =
        |more: &str| text.replacen(length, &format!("{length}\nsize = \"0.5 mm2\" # what was in the shed\n{more}"), 1);
    let mend = |text: &str| {
        std::fs::write(&wrong, text).unwrap();
        run(&["check", wrong.to_str().unwrap(), "--mend", out_at.to_str().unwrap()])
    };
    let output = mend(&with(""));
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    assert!(out(&output).contains("1 edit"), "{}", out(&output));
    let mended = std::fs::read_to_string(&out_at).unwrap();
    let others = |text: &str| text.lines().filter(|l| !l.starts_with("size")).map(String::from).collect::<Vec<_>>();
    assert_eq!(others(&mended), others(&with("")));
    assert_ne!(mended, with(""));
    // Kept: the file is written unchanged, and it says what excludes each other.
    let kept = with("keep = true\n");
    let output = mend(&kept);
    assert_eq!(output.status.code(), Some(1));
    assert!(out(&output).contains("exclude each other"), "{}", out(&output));
    assert_eq!(std::fs::read_to_string(&out_at).unwrap(), kept);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn quiet_says_it_by_the_status_alone() {
    for (plan, status) in [(example_paths()[0].to_str().unwrap(), 0), (STOPPED, 1), (UNREADABLE, 2)] {
        let output = run(&["check", "--quiet", plan]);
        assert_eq!(output.status.code(), Some(status), "{plan}");
        assert!(out(&output).is_empty(), "{plan}: {}", out(&output));
    }
}

#[test]
fn a_dash_is_standard_input() {
    let plan = std::fs::read(&example_paths()[0]).unwrap();
    let stopped = std::fs::read(STOPPED).unwrap();
    assert_eq!(run_with(&["check", STOPPED, "-"], &plan).status.code(), Some(1));
    assert_eq!(run_with(&["check", "-"], &stopped).status.code(), Some(1));
    let readings = run_with(&["report", "--readings", "-"], b"at,with,voltage_v\nrear panel,fridge,12.34\n");
    assert_eq!(readings.status.code(), Some(0), "{}", err(&readings));
    assert!(out(&readings).contains("12.34 V"));
    assert_eq!(run_with(&["report", "-", "--readings", "-"], &plan).status.code(), Some(2));
}

/// A plan that is written to `-` stands alone on standard output, so that it goes on into the next command; what is said
/// of it is beside it, and no file of that name is made.
#[test]
fn a_dash_is_standard_output() {
    let text = std::fs::read_to_string(&example_paths()[0]).unwrap();
    let length = text.lines().find(|l| l.starts_with("length_m = ")).unwrap();
    let thin = text.replacen(length, &format!("{length}\nsize = \"0.5 mm2\""), 1);
    assert_eq!(run_with(&["check", "-"], thin.as_bytes()).status.code(), Some(1));
    let mended = run_with(&["check", "-", "--mend", "-"], thin.as_bytes());
    assert!(err(&mended).contains("1 edit") && err(&mended).contains("standard output: 0 STOP"), "{}", err(&mended));
    assert_eq!(mended.status.code(), Some(0));
    assert_eq!(run_with(&["check", "-"], &mended.stdout).status.code(), Some(0), "{}", out(&mended));
    let plan = example_paths()[0].display().to_string();
    let list = run(&["table", "loads", &plan]);
    let back = run_with(&["table", "loads", &plan, "--from", "-", "--to", "-"], &list.stdout);
    assert_eq!(out(&back), std::fs::read_to_string(&plan).unwrap(), "{}", err(&back));
    assert!(err(&back).contains("standard output: "), "{}", err(&back));
    let both = run_with(&["table", "loads", "-", "--from", "-", "--to", "-"], text.as_bytes());
    assert_eq!(both.status.code(), Some(2));
    assert!(!std::path::Path::new("-").exists());
}

/// A near miss of a command, an option or a value names what was meant.
#[test]
fn near_misses_are_hinted_at() {
    for (arguments, hint) in [
        (["chekc"].as_slice(), "did you mean the command `check`"),
        (&["chekc", "van.toml"], "did you mean the command `check`"),
        (&["reprot", "--json"], "did you mean the command `report`"),
        (&["cable", "20A", "6m", "--drop", "3"], "did you mean 3%?"),
        (&["cable", "20A", "6m", "--drop", "0.03"], "did you mean 3%?"),
        (&["cable", "20A", "6m", "--drop", "critcal"], "did you mean `critical`"),
        (&["cable", "20A", "6m", "--through", "engin-bay"], "did you mean `engine-bay`"),
        (&["cable", "6m", "20A"], "loomwright cable 20A 6m"),
        (&["cut-off", "lifpo4", "100Ah", "8A"], "did you mean `lifepo4`"),
        (&["cut-off", "litium", "100Ah", "8A"], "did you mean `lithium`"),
        (&["cut-off", "afm", "100Ah", "8A"], "did you mean `agm`"),
        (&["catalogue", "explain", "amg"], "did you mean `agm`"),
        (&["catalogue", "conductor"], "'conductors'"),
        (&["report", "--fromat", "html"], "'--format'"),
        (&["man", "cabel"], "did you mean `cable`"),
    ] {
        let output = run(arguments);
        let said = err(&output).split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(said.contains(hint), "{arguments:?}: {said}");
    }
}

fn commands() -> Vec<String> {
    let help = out(&run(&["--help"]));
    let (_, list) = help.split_once("Commands:").unwrap();
    let (list, _) = list.split_once("\n\n").unwrap();
    let names = list.lines().filter_map(|l| l.strip_prefix("  ")).filter(|l| !l.starts_with(' '));
    names.filter_map(|l| l.split(' ').next()).filter(|c| *c != "help").map(str::to_string).collect()
}

#[test]
fn each_command_has_a_page_of_its_own() {
    let commands = commands();
    assert!(commands.len() >= 10, "{commands:?}");
    for command in &commands {
        let page = run(&["man", command]);
        let text = out(&page);
        assert_eq!(page.status.code(), Some(0), "{command}");
        let title = format!(".TH loomwright-{command} 1");
        assert!(text.contains(&title) && text.contains(".SH SYNOPSIS"), "{command}: {text}");
    }
    assert!(out(&run(&["man", "check"])).contains("Exit status"));
}

#[test]
fn completions_know_the_values_and_no_hidden_command() {
    let hidden = ["screenshots"];
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let text = out(&run(&["completions", shell]));
        assert!(hidden.iter().all(|h| !text.contains(h)), "{shell} offers what is hidden");
        if shell != "elvish" && shell != "powershell" {
            // fish is offered no values of what has no option before it.
            assert!(shell == "fish" || text.contains("lithium-iron-phosphate"), "{shell} offers no chemistry");
            for value in ["critical", "engine-bay", "pvc-105", "6mm2", "10AWG"] {
                assert!(text.contains(value), "{shell} does not offer {value}");
            }
        }
    }
    for page in [vec!["man"], vec!["--help"]] {
        assert!(!out(&run(&page)).contains(hidden[0]));
    }
    // What is offered is read: a size without its blank and its raised 2.
    assert_ne!(run(&["cable", "20A", "6m", "--size", "6mm2"]).status.code(), Some(2));
    assert_ne!(run(&["cable", "20A", "6m", "--sizes", "awg", "--size", "10AWG"]).status.code(), Some(2));
}

/// Scripts get the same bytes in every locale.
#[test]
fn answers_are_the_same_in_every_locale() {
    for arguments in [
        ["report", "--workings"].as_slice(),
        &["check"],
        &["cable", "20A", "6m"],
        &["days", "--days", "3"],
        &["catalogue", "rules"],
        &["check", UNREADABLE],
    ] {
        let told = |locale: &str| {
            let output = program(arguments).env("LC_ALL", locale).env("LANG", locale).output().unwrap();
            (output.stdout, output.stderr)
        };
        let plain = told("C");
        assert!(
            ["C.UTF-8", "de_DE.UTF-8", "POSIX", "tr_TR.ISO8859-9"].iter().all(|l| told(l) == plain),
            "{arguments:?}"
        );
    }
}

#[test]
fn no_color_counts_when_it_is_set_and_not_empty() {
    let said = |value: &str| {
        let output = program(&["report", "--color", "auto"]).env("NO_COLOR", value).output().unwrap();
        out(&output).contains('\u{1b}')
    };
    assert!(!said("1") && !said(""), "into a pipe there is no colour anyway");
    let wrong = run(&["report", "--color", "allways"]);
    assert!(wrong.status.code() == Some(2) && err(&wrong).contains("'always'"), "{}", err(&wrong));
}

/// Loads from the list of usual ones have long names: a part that only one of them has is enough.
#[test]
fn a_load_is_known_by_a_part_of_its_name() {
    let plan = std::fs::read_to_string("tests/everyday/plans/fridge-and-light.toml").unwrap();
    let name = |name: &str| format!("name = \"{name}\"");
    let named =
        |one: &str, other: &str| plan.replace(&name("light"), &name(other)).replace(&name("fridge"), &name(one));
    let asked = |text: &str, load: &str| {
        let output = run_with(&["fault", "-", "dark", "--load", load], text.as_bytes());
        (output.status.code(), out(&output), err(&output))
    };
    let long = named("Compressor fridge, 40 to 60 L", "Ceiling light, LED");
    let (status, said, _) = asked(&long, "Fridge");
    assert!(status == Some(0) && said.contains("Compressor fridge, 40 to 60 L"), "{said}");
    // Two have it: neither is guessed. One is called just so: it is meant.
    let two = named("light", "Ceiling light, LED");
    assert_eq!(asked(&two, "light").0, Some(0));
    let (status, _, why) = asked(&two, "ligh");
    assert!(status == Some(2) && why.contains("several loads have `ligh`"), "{why}");
    let (status, _, why) = asked(&two, "kettle");
    assert!(status == Some(2) && why.contains("no load `kettle`"), "{why}");
}

/// The measured resistance and nothing else goes into the plan; a key that the log does not change is refused.
#[test]
fn what_a_log_says_is_taken_field_by_field() {
    let folder = std::env::temp_dir().join(format!("loomwright-log-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let plan = folder.join("van.toml");
    let before = std::fs::read_to_string("tests/reference/data/logs/van.toml").unwrap();
    std::fs::write(&plan, &before).unwrap();
    let plan = plan.to_str().unwrap();
    let log = |more: &[&str]| run(&[&["log", plan, "tests/reference/data/logs/lead.csv"], more].concat());
    let refused = log(&["--take", "capacity-of-the-moon"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(err(&refused).contains("`fridge-current`"), "{}", err(&refused));
    assert_eq!(std::fs::read_to_string(plan).unwrap(), before);
    let taken = log(&["--take", "resistance"]);
    assert_eq!(taken.status.code(), Some(0), "{}", err(&taken));
    let after = std::fs::read_to_string(plan).unwrap();
    let new: Vec<&str> = after.lines().filter(|l| !before.lines().any(|b| b == *l)).collect();
    assert!(new.len() == 1 && new[0].starts_with("resistance_mohm = "), "{new:?}");
    std::fs::remove_dir_all(folder).unwrap();
}

/// Up to four rivals in columns, by their numbers in the list; a number that is none of them is told with the range.
#[test]
fn rivals_stand_side_by_side_by_their_numbers() {
    let plan = "tests/everyday/plans/fridge-and-light.toml";
    let page = out(&run(&["rivals", plan, "--beside", "1,2,3"]));
    let beside = page.split("Side by side").nth(1).unwrap();
    for row in ["Change", "Charger", "Battery mass", "Without charge", "Parts", "Findings"] {
        assert!(beside.contains(row), "{row}\n{page}");
    }
    let wrong = run(&["rivals", plan, "--beside", "1,900"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(err(&wrong).contains("--beside 900") && err(&wrong).contains("numbered 1 to"), "{}", err(&wrong));
    let many = run(&["rivals", plan, "--beside", "1,2,3,4,5"]);
    assert!(err(&many).contains("at most 4"), "{}", err(&many));
}
