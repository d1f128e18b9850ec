//! Every working that has a formula gives its result when worked out again
//! from its inputs alone, by an expression evaluator that knows nothing of us.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "../generated/many.rs"]
mod generated_many;
#[path = "../generated/plan.rs"]
mod generated_plan;

use evalexpr::{
    ContextWithMutableFunctions, ContextWithMutableVariables, DefaultNumericTypes, Function, HashMapContext, Value,
    eval_with_context,
};
use generated_many::plans;
use generated_plan::plan;
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::work_out::work_out_sizes;
use loomwright::engine::design::results::fact::{At, Content, Named, contents};
use loomwright::engine::installation::subject::Subject;
use loomwright::engine::installation::working::Topic;
use loomwright::engine::{Working, Workings, design};
use loomwright::plan::{ChargerKind, Plan, examples, read};
use std::collections::BTreeMap;

fn context(working: &Working) -> HashMapContext<DefaultNumericTypes> {
    let mut context = HashMapContext::new();
    for (name, function) in [
        ("sqrt", f64::sqrt as fn(f64) -> f64),
        ("exp", f64::exp),
        ("ln", f64::ln),
        ("ceil", f64::ceil),
        ("floor", f64::floor),
    ] {
        let call = Function::new(move |argument| Ok(Value::Float(function(argument.as_number()?))));
        context.set_function(name.into(), call).unwrap();
    }
    let power = Function::new(|arguments: &Value<DefaultNumericTypes>| {
        let of = arguments.as_fixed_len_tuple(2)?;
        Ok(Value::Float(of[0].as_number()?.powf(of[1].as_number()?)))
    });
    context.set_function("power".into(), power).unwrap();
    for input in &working.inputs {
        context.set_value(input.symbol.into(), Value::Float(input.value.value)).unwrap();
    }
    context
}

/// Whole numbers in a formula would divide as integers.
fn with_floats(formula: &str) -> String {
    let mut out = String::new();
    let mut chars = formula.chars().peekable();
    let mut in_name = false;
    while let Some(c) = chars.next() {
        let starts = c.is_ascii_digit() && !in_name;
        out.push(c);
        if starts {
            let mut point = false;
            while let Some(&next) = chars.peek() {
                if next.is_ascii_digit() || (next == '.' && !point) {
                    point |= next == '.';
                    out.push(next);
                    chars.next();
                } else {
                    break;
                }
            }
            if !point {
                out.push_str(".0");
            }
        }
        in_name = c.is_alphabetic() || c == '_' || (in_name && c.is_ascii_digit());
    }
    out
}

/// What does not come out, and how many formulas were worked out.
fn worked_out(name: &str, workings: &Workings, wrong: &mut Vec<String>) -> usize {
    let mut count = 0;
    for (topic, working) in workings.iter() {
        let place = format!("{name}: {:?} {}", topic.subject, topic.number);
        let result = working.result.value;
        if !result.is_finite() {
            wrong.push(format!("{place} is {result}"));
        }
        if working.source.trim().is_empty() {
            wrong.push(format!("{place} has no source"));
        }
        if working.formula.is_empty() {
            continue;
        }
        count += 1;
        match eval_with_context(&with_floats(&working.formula), &context(working)).and_then(|v| v.as_number()) {
            Ok(got) if (got - result).abs() <= 1e-6 * result.abs().max(1e-6) => {}
            Ok(got) => wrong.push(format!("{place}: `{}` gives {got}, not {result}", working.formula)),
            Err(e) => wrong.push(format!("{place}: `{}`: {e}", working.formula)),
        }
    }
    count
}

#[test]
fn every_formula_gives_its_result() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut count, mut wrong) = (0, Vec::new());
    for example in examples() {
        let design = design(&read(example.text, &catalogue).plan, &catalogue);
        count += worked_out(example.name, design.workings(), &mut wrong);
    }
    assert!(count > 100, "only {count} workings have a formula");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Plans that no person would write: every third asks for the impossible.
#[test]
fn every_formula_gives_its_result_in_generated_plans() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut count, mut wrong) = (0, Vec::new());
    let many = plans(250);
    for seed in 0..many {
        let runs = 1 + seed as usize % 12;
        let design = design(&plan(seed, runs, seed % 3 == 0, &catalogue), &catalogue);
        count += worked_out(&format!("seed {seed}"), design.workings(), &mut wrong);
    }
    assert!(count as u64 > 20 * many, "only {count} workings have a formula");
    assert!(wrong.is_empty(), "{} wrong, such as\n{}", wrong.len(), wrong[..wrong.len().min(40)].join("\n"));
}

/// By which names the bounds of a chosen number stand in its working, as its symbols; the number may be one that the
/// plan gives.
fn bounds(topic: &Topic, given: &Plan) -> Option<&'static [&'static str]> {
    let number = topic.number.as_ref();
    Some(match (&topic.subject, number) {
        (Subject::Charger, "current") if given.charger.kind == ChargerKind::DcDc => &["D", "L", "B"],
        (Subject::Charger, "a day") => &["C", "I", "h", "m"],
        (Subject::CutOff, "cut") if given.cut_off.cut.is_none() => &["d", "L"],
        (Subject::CutOff, "reconnect") if given.cut_off.reconnect.is_none() => &["U", "H", "C", "d"],
        (Subject::CutOff, "delay") if given.cut_off.delay.is_none() => &["t", "s", "m"],
        (Subject::CutOff, "rating") => &["I"],
        (Subject::ServiceBattery, "capacity") if given.service_battery.capacity.is_none() => &["n", "B", "Q"],
        (Subject::Candidate(_), "capacity") => &["n", "B", "Q"],
        (Subject::Run(_), "size") => &["I", "S"],
        (Subject::Run(_), "fuse" | "fuse at far end") => &["a", "b", "c", "d"],
        (Subject::Bond, "size") => &["I"],
        _ => return None,
    })
}

/// A number that is chosen between limits says in its working which they are.
#[test]
fn every_chosen_number_names_its_bounds() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut wrong = Vec::new();
    let many: u64 = plans(40);
    let plans = (0..many).map(|seed| (format!("seed {seed}"), plan(seed, 1 + seed as usize % 12, false, &catalogue)));
    let examples = examples().iter().map(|e| (e.name.to_string(), read(e.text, &catalogue).plan));
    for (name, plan) in plans.chain(examples) {
        let design = design(&plan, &catalogue);
        for (topic, working) in design.workings().iter() {
            let Some(wanted) = bounds(topic, &plan) else { continue };
            *seen.entry(topic.number.to_string()).or_default() += 1;
            let named = |symbol: &&&str| working.inputs.iter().any(|i| i.symbol == **symbol);
            let missing: Vec<_> = wanted.iter().filter(|symbol| !named(symbol)).collect();
            if !missing.is_empty() {
                wrong.push(format!("{name}: {:?} {} does not name {missing:?}", topic.subject, topic.number));
            }
            // What the plan does not give is no smaller than what it must carry.
            let carries = working.inputs.iter().find(|i| i.symbol == "Q").filter(|_| topic.number == "capacity");
            if carries.is_some_and(|least| least.value.value > working.result.value + 1e-6) {
                wrong.push(format!("{name}: {:?} {} is less than it names", topic.subject, topic.number));
            }
        }
        // Each that there is has a working.
        for run in design.runs.iter().filter(|r| r.size.is_some() && r.branch.is_some()) {
            if design.workings().get(&Subject::Run(run.run), "size").is_none() {
                wrong.push(format!("{name}: the size of run {} has no working", run.run));
            }
        }
        if design.charger.current.is_some() && design.workings().get(&Subject::Charger, "current").is_none() {
            wrong.push(format!("{name}: the charger's current has no working"));
        }
    }
    for number in ["current", "a day", "cut", "reconnect", "delay", "rating", "capacity", "size", "fuse"] {
        assert!(seen.get(number).is_some_and(|n| *n > 30), "{number} was not looked at: {seen:?}");
    }
    assert!(wrong.is_empty(), "{} wrong, such as\n{}", wrong.len(), wrong[..wrong.len().min(30)].join("\n"));
}

#[test]
fn every_step_into_another_working_leads_somewhere() {
    let catalogue = Catalogue::embedded().unwrap();
    for example in examples() {
        let plan = read(example.text, &catalogue).plan;
        let design = design(&plan, &catalogue);
        for (topic, working) in design.workings().iter() {
            for from in working.inputs.iter().filter_map(|i| i.from.as_ref()) {
                assert!(
                    design.workings().at(from).is_some(),
                    "{}: {:?} {} steps into {from:?}, which has no working",
                    example.name,
                    topic.subject,
                    topic.number
                );
            }
        }
    }
}

/// By sort of thing and key, whether all results there have the working that they name.
fn missing(named: &[Named], sort: &str, workings: &Workings, found: &mut BTreeMap<String, bool>) {
    for Named { key, content, topic } in named {
        let here = format!("{sort}/{key}");
        // Of what is not there (no inverter, no sun) nothing is drawn, and nothing explained.
        let nothing = match content {
            Content::Absent => true,
            Content::Number(figure) => figure.value == 0.0,
            _ => false,
        };
        if let (Some(topic), false) = (topic, nothing) {
            let there = workings.at(topic).is_some();
            let all = found.entry(here.clone()).or_insert(true);
            *all &= there;
        }
        walk(content, &here, workings, found);
    }
}

fn walk(content: &Content, sort: &str, workings: &Workings, found: &mut BTreeMap<String, bool>) {
    match content {
        Content::Group(named) => missing(named, sort, workings, found),
        Content::List(items) => items.iter().for_each(|item| walk(item, sort, workings, found)),
        _ => {}
    }
}

#[test]
fn every_result_that_names_a_working_has_it() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut found = BTreeMap::new();
    for example in examples() {
        let mut design = design(&read(example.text, &catalogue).plan, &catalogue);
        design.add_workings(work_out_sizes(&design));
        let at = At { topics: true, ..At::site(&design.installation) };
        missing(&contents(&design, &at), "", design.workings(), &mut found);
    }
    let without: Vec<&String> = found.iter().filter(|(_, there)| !**there).map(|(key, _)| key).collect();
    assert!(found.len() > 100, "only {} results name a working", found.len());
    assert!(without.is_empty(), "no working for {without:#?}");
}
