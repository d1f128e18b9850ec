//! Streams, statuses, colours, pipes: what scripts rely on.

use crate::run::{empty_folder, err, example_paths, out, program, run, run_with};
use std::process::Stdio;
use unicode_width::UnicodeWidthStr;

#[test]
fn statuses_mean_what_the_help_says() {
    let status = |arguments: &[&str]| run(arguments).status.code();
    assert_eq!(status(&["--help"]), Some(0));
    assert_eq!(status(&["--version"]), Some(0));
    assert_eq!(status(&["check", "tests/problems/run-to-nowhere.toml"]), Some(1));
    assert_eq!(status(&["report", "tests/problems/run-to-nowhere.toml"]), Some(1));
    assert_eq!(status(&["check", "tests/problems/misspelt-key.toml"]), Some(2));
    assert_eq!(status(&["check", "--no-such-option"]), Some(2));
    assert_eq!(status(&["--profiles", "tests/no-such-folder", "check"]), Some(2));
    assert_eq!(status(&[]), Some(2), "no terminal, no screens");
}

#[test]
fn examples_are_fit_to_build() {
    for path in example_paths() {
        let output = run(&["check", path.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(0), "{}: {}", path.display(), out(&output));
    }
}

#[test]
fn text_fits_eighty_columns_and_ascii_is_ascii() {
    let mut commands: Vec<Vec<String>> = vec![
        vec!["cable".into(), "20A".into(), "6.2m".into()],
        vec!["cut-off".into(), "agm".into(), "100Ah".into(), "8A".into()],
        ["days", "--days", "30", "--trials", "2"].map(String::from).into(),
    ];
    for shelf in ["chemistries", "conductors", "insulation", "fuses", "loads", "places", "rules", "sources"] {
        commands.push(vec!["catalogue".into(), shelf.into()]);
    }
    commands.push(["catalogue", "explain", "agm"].map(String::from).into());
    for path in example_paths() {
        let path = path.display().to_string();
        commands.push(vec!["report".into(), "--workings".into(), path.clone()]);
        commands.push(vec!["check".into(), path]);
    }
    for command in commands {
        let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
        for line in out(&run(&arguments)).lines() {
            assert!(line.width() <= 80, "{arguments:?}: {} columns: {line}", line.width());
        }
        let ascii: Vec<&str> = arguments.iter().copied().chain(["--ascii"]).collect();
        let text = out(&run(&ascii));
        let other = text.chars().find(|c| !c.is_ascii());
        assert!(other.is_none() && !text.is_empty(), "{ascii:?} has {other:?}");
    }
}

/// `explain` shows a value with its own source, for people and for scripts; what is not there is an error.
#[test]
fn a_value_is_explained_with_its_own_source() {
    for (key, shown) in [
        ("agm.charge.max", "agm.charge.max_v = 14.8 V"),
        ("blade-c", "blade-c.breaking.32.amps = 1000 A"),
        ("rules.fuse-loading", "rules.fuse-loading = 80 %"),
    ] {
        let text = out(&run(&["catalogue", "explain", key]));
        assert!(text.contains(shown), "{key}: {text}");
        let json: serde_json::Value =
            serde_json::from_str(&out(&run(&["catalogue", "explain", key, "--json"]))).unwrap();
        for value in json["values"].as_array().unwrap() {
            let (path, how) = (value["key"].as_str().unwrap(), value["how"].as_str().unwrap());
            assert!(text.contains(path) && ["opened", "computed", "memory", "practice"].contains(&how), "{value}");
        }
    }
    assert_eq!(run(&["catalogue", "explain", "agm.charge.maximum"]).status.code(), Some(2));
    assert_eq!(run(&["catalogue", "explain"]).status.code(), Some(2));
    assert_eq!(run(&["catalogue", "rules", "agm"]).status.code(), Some(2));
}

#[test]
fn a_plan_may_come_from_standard_input() {
    let path = &example_paths()[0];
    let output = run_with(&["check", "-"], &std::fs::read(path).unwrap());
    assert_eq!(output.status.code(), Some(0));
    assert!(out(&output).contains("standard input"), "{}", out(&output));
}

#[test]
fn colour_only_when_wanted() {
    assert!(!out(&run(&["report"])).contains('\u{1b}'), "not into a pipe");
    assert!(out(&run(&["report", "--color", "always"])).contains("\u{1b}[1m"));
    let output = program(&["report", "--color", "always"]).env("NO_COLOR", "1").output().unwrap();
    assert!(out(&output).contains('\u{1b}'), "the option is stronger than the variable");
    let problem = run(&["check", "tests/problems/misspelt-key.toml", "--color", "never"]);
    assert!(!err(&problem).contains('\u{1b}'));
}

/// Whatever is typed, the answer is a sentence and not a page.
#[test]
fn messages_stay_short_whatever_is_typed() {
    let long = "x".repeat(100_000);
    for arguments in [
        vec!["cable", &long, "6m"],
        vec!["cable", "20A", "6m", "--drop", &long],
        vec!["cable", "20A", "6m", "--size", &long],
        vec!["cut-off", &long, "100Ah", "8A"],
        vec!["cut-off", "agm", "100Ah", "8A", "--reserve", &long],
        vec!["catalogue", "explain", &long],
        vec!["check", &long],
        vec!["report", "--readings", &long],
        vec!["check", "--no-notes", &long, &long],
        vec!["--color", &long],
        vec![&long],
    ] {
        let output = run(&arguments);
        assert_eq!(output.status.code(), Some(2));
        let said = err(&output);
        assert!(!said.is_empty() && said.len() < 2_000, "{} bytes for {}", said.len(), arguments[0]);
    }
    let plan = "format = 2\n".to_string() + &"[[load]]\nz = 1\n".repeat(2_000);
    let said = err(&run_with(&["check", "-"], plan.as_bytes()));
    assert!(said.len() < 60_000 && said.contains("problems in standard input"), "{} bytes", said.len());
}

/// Signs that nobody sees or that turn the reading direction come out of no command, in JSON as
/// escapes that a reader of JSON turns back.
#[test]
fn hidden_signs_come_out_of_no_command() {
    let hidden = ['\u{1b}', '\u{9b}', '\u{200b}', '\u{202e}', '\u{2066}', '\u{2069}', '\u{feff}', '\u{e0041}'];
    let escapes: String = hidden.iter().map(|c| format!("\\U{:08X}", u32::from(*c))).collect();
    let plan = format!(
        "format = 2\ntitle = \"a{escapes}b\"\n[service_battery]\nchemistry = \"agm\"\n[[load]]\n\
         name = \"frid{escapes}ge\"\npower_w = 5\nduty.hours_a_day = 2\nat = \"nowhere{escapes}\"\n"
    );
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van\u{202e}.toml");
    std::fs::write(&path, plan).unwrap();
    let (path, into) = (path.to_str().unwrap(), folder.path().join("papers"));
    let into = into.to_str().unwrap();
    for arguments in [
        vec!["report", path, "--workings"],
        vec!["report", path, "--format", "markdown"],
        vec!["report", path, "--format", "html"],
        vec!["report", path, "--json"],
        vec!["check", path],
        vec!["check", path, "--json"],
        vec!["days", path],
        vec!["days", path, "--json"],
        vec!["papers", path, "--into", into, "--json"],
        vec!["rivals", path],
        vec!["rivals", path, "--json"],
        vec!["fault", path, "flat"],
        vec!["fault", path, "dark", "--load", "a\u{202e}b"],
        vec!["ageing", path],
        vec!["log", path, "tests/reference/data/logs/lead.csv"],
        vec!["log", path, "tests/reference/data/logs/lead.csv", "--take", "a\u{202e}b"],
        vec!["log", path, "no\u{202e}file"],
        vec!["table", "loads", path],
        vec!["table", "runs", path],
        vec!["used-battery", "a\u{202e}gm", "5Ah"],
        vec!["catalogue", "explain", "a\u{202e}gm"],
        vec!["catalogue", "own", "a\u{202e}gm"],
        vec!["man", "a\u{202e}b"],
        vec!["check", path, "--mend", "no\u{202e}folder/new.toml"],
        vec!["check", "no\u{202e}file\u{9b}"],
        vec!["cut-off", "a\u{202e}gm", "5", "5"],
        vec!["cable", "5\u{202e}", "5"],
        vec!["check", "--profiles", "no\u{202e}folder"],
        vec!["--no\u{202e}option"],
    ] {
        let output = run(&arguments);
        let (said, wrong) = (out(&output), err(&output));
        assert!(!said.contains(hidden) && !wrong.contains(hidden), "{arguments:?}: {said}{wrong}");
        assert!(!said.is_empty() || !wrong.is_empty());
        if arguments.starts_with(&["table", "loads"]) {
            let name = format!("frid{}ge", "\u{fffd}".repeat(hidden.len()));
            assert!(said.contains(&name), "{said}");
        }
        if arguments.contains(&"report") && arguments.contains(&"--json") {
            let json: serde_json::Value = serde_json::from_str(&said).unwrap();
            assert!(json.to_string().contains('\u{202e}') && said.contains("\\u202e"), "{said}");
        }
    }
    let papers = std::fs::read_dir(into).unwrap().map(|f| f.unwrap().path()).filter(|p| p.is_file());
    // Of a PDF the bytes are packed; what it shows comes from the same text.
    for file in papers.filter(|file| file.extension().is_none_or(|end| end != "pdf")) {
        let text = std::fs::read(file).unwrap();
        assert!(!String::from_utf8_lossy(&text).contains(hidden));
    }
}

/// `| head` may close the pipe before, or while, anything is written: that is no error of any command.
#[test]
fn a_closed_pipe_is_no_error() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().display().to_string();
    let van = "profiles/plans/bird-ringing-van.toml";
    for arguments in [
        vec!["catalogue", "sources"],
        vec!["report", "--workings"],
        vec!["report", "--json"],
        vec!["check"],
        vec!["cable", "20A", "6m"],
        vec!["days"],
        vec!["rivals", van],
        vec!["fault", van, "flat"],
        vec!["ageing", van],
        vec!["log", van, "tests/reference/data/logs/lead.csv"],
        vec!["table", "loads", van],
        vec!["used-battery", "agm", "100Ah", "--rested", "12.4V", "--after", "6h"],
        vec!["self-check"],
        vec!["papers", "--into", &into],
        vec!["schema"],
        vec!["completions", "bash"],
        vec!["man"],
        vec!["--help"],
        vec!["--version"],
    ] {
        let mut child = program(&arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", err(&output));
        assert!(err(&output).is_empty(), "{arguments:?}: {}", err(&output));
    }
    // Nobody to read the message: the status still tells.
    let mut child = program(&["check", "no such plan"]).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stderr.take());
    assert_eq!(child.wait().unwrap().code(), Some(2));
}

#[test]
fn papers_go_into_a_folder_and_replace_nothing_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("van/papers");
    let into = into.to_str().unwrap();
    let first = run(&["papers", "--into", into]);
    assert_eq!(first.status.code(), Some(0), "{}", err(&first));
    for name in out(&first).lines() {
        assert!(std::path::Path::new(name).is_file(), "{name} was announced");
    }
    let again = run(&["papers", "--into", into]);
    assert_eq!(again.status.code(), Some(2));
    assert!(err(&again).contains("--replace"));
    assert_eq!(run(&["papers", "--into", into, "--replace"]).status.code(), Some(0));
    // The folder may also follow the plan.
    let (plan, second) = (example_paths()[0].display().to_string(), folder.path().join("second"));
    assert_eq!(run(&["papers", &plan, second.to_str().unwrap()]).status.code(), Some(0));
    assert!(second.join("report.html").is_file());
}

/// A user's own profile changes what the program knows; a broken one is named.
#[test]
fn profiles_lie_over_the_built_in_ones() {
    let folder = tempfile::tempdir().unwrap();
    let row = "[[colour]]\nconductor = \"positive\"\ncolour = \"orange\"\nhow = \"user\"\n";
    std::fs::write(folder.path().join("workshop.toml"), row).unwrap();
    let into = folder.path().join("papers");
    let output = run(&["papers", "--profiles", folder.path().to_str().unwrap(), "--into", into.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    assert!(std::fs::read_to_string(into.join("cut-list.md")).unwrap().contains("orange"));
    std::fs::write(folder.path().join("workshop.toml"), "[[colour]]\nconductor = 5\n").unwrap();
    let output = run(&["check", "--profiles", folder.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("workshop.toml"), "{}", err(&output));
    assert!(empty_folder().read_dir().unwrap().next().is_none(), "tests leave the settings alone");
}

/// A row of one's own that moves a published figure is seen at once.
#[test]
fn a_changed_row_is_seen_by_the_self_check() {
    let whole = run(&["self-check"]);
    assert_eq!(whole.status.code(), Some(0), "{}", err(&whole));
    let folder = tempfile::tempdir().unwrap();
    let row = "[[conductor]]\nlabel = \"6 mm²\"\nfamily = \"metric\"\narea_mm2 = 6\nohm_per_km_20c = 2.8\noutside_mm = 4\n\
               how = \"user\"\n";
    std::fs::create_dir(folder.path().join("conductors")).unwrap();
    std::fs::write(folder.path().join("conductors/own.toml"), row).unwrap();
    let output = run(&["self-check", "--profiles", folder.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(1), "{}", err(&output));
    let text = String::from_utf8(output.stdout).unwrap();
    let no: Vec<&str> = text.lines().filter(|l| l.trim_end().ends_with("NO")).collect();
    assert_eq!(no.len(), 1, "{text}");
    assert!(no[0].contains("6 mm²") && no[0].contains("2.8 Ω/km"), "{}", no[0]);
}

#[test]
fn completions_and_manual_name_every_command() {
    let listed = String::from_utf8(run(&["man", "--list"]).stdout).unwrap();
    assert!(["report", "cut-off", "self-check", "man"].iter().all(|c| listed.lines().any(|l| l == *c)), "{listed}");
    for command in listed.lines() {
        let page = run(&["man", command]);
        assert!(page.status.success() && String::from_utf8_lossy(&page.stdout).contains(".TH"), "{command}");
    }
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let text = out(&run(&["completions", shell]));
        for command in ["report", "check", "cable", "cut-off", "papers", "catalogue", "schema"] {
            assert!(text.contains(command), "{shell} does not complete {command}");
        }
    }
    let man = out(&run(&["man"]));
    assert!(man.starts_with(".ie") && man.contains("COMMAND CABLE") && man.contains("Exit status"));
}

/// Readings come in from a file and are judged like those of the plan; a bad one names its line.
#[test]
fn readings_come_from_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("meter.csv");
    let named = file.to_str().unwrap();
    let example = include_str!("../../profiles/plans/bird-ringing-van.toml");
    let (unread, _) = example.split_once("[[reading]]").unwrap();
    let plan = folder.path().join("unread.toml");
    std::fs::write(&plan, unread).unwrap();
    let plan = plan.to_str().unwrap();
    std::fs::write(&file, "at,with,voltage_v,posts_v\nrear panel,fridge,11.20,12.90\ncut-off,fridge,12.88 V,12.90\n")
        .unwrap();
    let said = out(&run(&["report", plan, "--readings", named]));
    assert!(said.contains("1.70 V") && said.contains("OUTSIDE"), "{said}");
    let judged = out(&run(&["check", plan, "--readings", named, "--json"]));
    assert!(judged.contains("R5 rear feed has 4"), "{judged}");
    for (text, words) in [
        ("at,voltage_w\nrear panel,12\n", "did you mean `voltage_v`"),
        ("at,voltage_v\nrear panel,lots\n", "line 2, `voltage_v`"),
        ("at,voltage_v\nrear panel,99\n", "20.00 V"),
    ] {
        std::fs::write(&file, text).unwrap();
        let refused = run(&["check", "--readings", named]);
        let said = String::from_utf8_lossy(&refused.stderr).into_owned();
        assert!(said.contains(words), "{said}");
        assert_eq!(refused.status.code(), Some(2));
    }
}

/// The user's own prices are compared in the report; 280 Ah at 330 for 100 Ah are 924. Without prices nothing is said.
#[test]
fn the_report_compares_the_users_prices() {
    let folder = tempfile::tempdir().unwrap();
    let said = out(&run(&["report"]));
    assert!(said.contains("By your own prices") && said.contains("924"), "{said}");
    let plan = folder.path().join("plain.toml");
    std::fs::write(&plan, "format = 2\n").unwrap();
    assert!(!out(&run(&["report", plan.to_str().unwrap()])).contains("By your own prices"));
}

/// The value before a metric unit in what is said.
fn metric(said: &str) -> Option<String> {
    let words: Vec<&str> = said.split_whitespace().collect();
    let number = |w: &str| w.trim_start_matches(['(', '+', '-']).parse::<f64>().is_ok();
    let unit = |w: &str| ["m", "kg", "°C", "Nm"].contains(&w.trim_end_matches([',', '.', ';', ':', ')']));
    words.windows(2).find(|w| number(w[0]) && unit(w[1])).map(|w| w.join(" "))
}

/// Every answer is in the units that the plan or `--units` asks for, and a name that reads like a value stays.
#[test]
fn each_answer_is_in_the_units_wanted() {
    let folder = tempfile::tempdir().unwrap();
    let text = "format = 2\nunits = \"imperial\"\ntitle = \"lamp 2 m\"\n[service_battery]\nchemistry = \"agm\"\n\
                capacity_ah = 100\n[charger]\nkind = \"none\"\n[[load]]\nname = \"lamp 2 m\"\nat = \"shelf\"\n\
                power_w = 60\n[[run]]\nfrom = \"service battery\"\nto = \"shelf\"\nlength_m = 6\nsize_mm2 = 1\n";
    let plan = folder.path().join("van.toml");
    std::fs::write(&plan, text).unwrap();
    let plan = plan.to_str().unwrap();
    let mended = folder.path().join("mended.toml");
    for command in [
        vec!["report", plan],
        vec!["check", plan],
        vec!["check", plan, "--mend", mended.to_str().unwrap(), "--cautions"],
        vec!["rivals", plan],
        vec!["ageing", plan],
        vec!["endurance", plan],
        vec!["fault", plan, "dark", "--load", "lamp 2 m"],
        vec!["cable", "20A", "7m", "--units", "imperial"],
        vec!["cut-off", "agm", "100Ah", "8A", "--units", "imperial"],
    ] {
        let said = out(&run(&command));
        assert!(!said.contains("lamp 6"), "{command:?}: {said}");
        // What has a formula in it stays as it was reckoned.
        let said = said.replace("lamp 2 m", "lamp").replace("105 to 160 °C", "");
        assert_eq!(metric(&said), None, "{command:?}: {said}");
    }
    let metres = out(&run(&["report", plan, "--units", "metric"]));
    assert!(metres.contains("6 m"), "{metres}");
}
