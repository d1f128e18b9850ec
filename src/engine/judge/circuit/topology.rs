//! Do the runs, loads and devices hang together?

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::misfit::Misfit;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind};
use crate::plan::{Place, Section, Value, point};

/// One finding for each misfit.
pub fn check(site: &Installation) -> Vec<Finding> {
    site.circuits.misfits.iter().map(|misfit| Words { site }.of(misfit)).collect()
}

struct Words<'a> {
    site: &'a Installation,
}

impl Words<'_> {
    fn of(&self, misfit: &Misfit) -> Finding {
        match misfit {
            Misfit::Nowhere { run } => self.no_ends(*run, "leads nowhere"),
            Misfit::SameEnds { run } => self.no_ends(*run, "begins and ends at the same point"),
            Misfit::SecondWay { run, to } => self.looped(*run, &format!("is a second way to `{to}`")),
            Misfit::JoinsBatteries { run } => {
                self.looped(*run, "joins both batteries without the charger between them")
            }
            Misfit::Loose { run } => self.loose(*run),
            Misfit::CutOffAtPosts { run } => self.cut_off(*run),
            Misfit::NoLoads => Finding::new(Kind::NoLoads, Subject::Plan, "there is nothing to feed yet")
                .rule("a battery is sized from what uses its energy")
                .remedy("add a load"),
            Misfit::LoadLoose { load, near } => self.load(*load, near.as_deref()),
            Misfit::InverterLoose => self.inverter(),
            Misfit::Idle { run, far } => self.idle(*run, far),
            Misfit::ChargerInputLoose => self.charger("input", point::STARTER_BATTERY),
            Misfit::ChargerOutputLoose => self.charger("output", point::SERVICE_BATTERY),
            Misfit::SensingLoose => self.sensing(),
        }
    }

    fn on_run(&self, kind: Kind, run: usize, what: &str) -> Finding {
        Finding::new(kind, Subject::Run(run), format!("{} {what}", run_name(&self.site.runs, run)))
    }

    fn no_ends(&self, run: usize, what: &str) -> Finding {
        let begins = self.site.runs.get(run).is_some_and(|r| !r.from.is_empty());
        self.on_run(Kind::RunNowhere, run, what)
            .rule("every run joins two points")
            .at(Place::run(run, if begins { "to" } else { "from" }))
            .remedy("name the point at its other end, one of the plan or a new one")
    }

    fn looped(&self, run: usize, what: &str) -> Finding {
        self.on_run(Kind::RunLoop, run, what)
            .rule("runs form a tree from each battery; a loop would share its current by chance and pass a fuse by")
            .at(Place::run(run, "to"))
            .remedy(format!("take out run {} or lead it to another point", self.site.run_number(run)))
    }

    fn loose(&self, run: usize) -> Finding {
        self.on_run(Kind::RunLoose, run, "hangs together with neither battery")
            .rule(format!(
                "every run must be reached from `{}` or `{}`",
                point::SERVICE_BATTERY,
                point::STARTER_BATTERY
            ))
            .at(Place::run(run, "from"))
            .remedy(format!(
                "let {} begin at a point that another run reaches; mind the spelling",
                self.site.run_number(run)
            ))
    }

    fn cut_off(&self, run: usize) -> Finding {
        let text = "no run joins the service battery to the cut-off; it is taken to sit at the posts";
        Finding::new(Kind::CutOffLoose, Subject::CutOff, text)
            .rule("the drop between the posts and the cut-off counts too")
            .at(Place::run(run, "from"))
            .remedy(format!("add a run from `{}` to `{}` with its length", point::SERVICE_BATTERY, point::CUT_OFF))
    }

    fn load(&self, index: usize, near: Option<&str>) -> Finding {
        let (name, at) = self.site.loads.get(index).map_or(("", ""), |l| (&l.name, &l.at));
        let text = match at {
            "" => format!("{name} is connected to no point"),
            _ => format!("{name} is at `{at}`, which no run reaches"),
        };
        let place = Place::load(index, "at");
        let finding = Finding::new(Kind::LoadLoose, Subject::Load(index), text)
            .rule("every load hangs on a point that a run reaches")
            .at(place);
        match near {
            Some(near) => {
                let words = format!("connect it to `{near}`, where {} ends", self.run_to(near));
                finding.remedy_edit(words, place, Some(Value::Text(near.into())))
            }
            None if at.is_empty() => finding.remedy("name the point it hangs on, one at which a run ends"),
            None => finding.remedy(format!("add a run that ends at `{at}`, or connect it where another run ends")),
        }
    }

    /// `R4`, the run that ends at a point of the service side.
    fn run_to(&self, name: &str) -> String {
        let circuits = &self.site.circuits;
        let branch = circuits.to_point.get(name).and_then(|&b| circuits.branches.get(b));
        branch.map_or_else(|| "a run".into(), |b| self.site.run_number(b.run))
    }

    fn inverter(&self) -> Finding {
        let text = format!("the inverter is at `{}`, which no run reaches", self.site.inverter.at);
        Finding::new(Kind::LoadLoose, Subject::Inverter, text)
            .rule("the inverter hangs on a point that a run reaches")
            .at(Place::of(Section::Inverter, "at"))
            .remedy("add a run that ends at the inverter's point")
    }

    fn idle(&self, run: usize, far: &str) -> Finding {
        let what = format!("feeds nothing: no load, charger or other device is at or beyond `{far}`");
        self.on_run(Kind::RunIdle, run, &what)
            .rule("a live cable that ends in nothing can chafe and short without ever being missed")
            .at(Place::run(run, "to"))
            .remedy(format!(
                "take {} out, connect a load to its end, or say what current it is to be sized for",
                self.site.run_number(run)
            ))
    }

    fn charger(&self, side: &str, battery: &str) -> Finding {
        let text = format!("no run joins the charger's {side} to the {battery}");
        Finding::new(Kind::ChargerLoose, Subject::Charger, text)
            .rule(format!("the charger stands between `{}` and `{}`", point::STARTER_BATTERY, point::SERVICE_BATTERY))
            .at(Place::of(Section::Charger, "kind"))
            .remedy(format!("add a run from `{battery}` to `{}`, or set the charger to none", point::CHARGER))
    }

    fn sensing(&self) -> Finding {
        let text = format!("the cut-off watches `{}`, which no run reaches", self.site.cut_off.senses_at);
        let place = Place::of(Section::CutOff, "senses_at");
        Finding::new(Kind::SensingLoose, Subject::CutOff, text)
            .rule("the voltage it watches must be that of a point of the plan; until then the posts are taken")
            .at(place)
            .remedy_edit("let it watch the posts", place, Some(Value::Text(point::SERVICE_BATTERY.into())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::plan::read;

    const HEAD: &str = "format = 2\n[service_battery]\nchemistry = \"agm\"\n[charger]\nkind = \"none\"\n[cut_off]\nsenses_at = \"service battery\"\n";

    fn run(from: &str, to: &str) -> String {
        format!("[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = 1\n")
    }

    fn load(at: &str) -> String {
        format!("[[load]]\nname = \"lamp at {at}\"\nat = \"{at}\"\npower_w = 5\n")
    }

    /// The kinds found in a plan of these parts, in order, each once.
    #[track_caller]
    fn kinds(parts: &[String]) -> Vec<Kind> {
        let catalogue = Catalogue::embedded().unwrap();
        let text = format!("{HEAD}{}", parts.concat());
        let read = read(&text, &catalogue);
        assert_eq!(read.problems, [], "{text}");
        let findings = check(&Installation::of(&read.plan, &catalogue));
        assert!(findings.iter().all(|f| !f.remedies.is_empty() && !f.rule.is_empty()), "{findings:?}");
        let mut kinds: Vec<_> = findings.iter().map(|f| f.kind).collect();
        kinds.dedup();
        kinds
    }

    fn sound() -> Vec<String> {
        vec![run("service battery", "cut-off"), run("cut-off", "panel"), load("panel")]
    }

    #[test]
    fn a_sound_plan_has_no_findings() {
        assert_eq!(kinds(&sound()), []);
    }

    #[test]
    fn what_does_not_hang_together_is_found_and_the_rest_stands() {
        let with = |more: &[String]| kinds(&[sound(), more.to_vec()].concat());
        assert_eq!(with(&[run("cut-off", "")]), [Kind::RunNowhere]);
        assert_eq!(with(&[run("panel", "panel")]), [Kind::RunNowhere]);
        assert_eq!(with(&[run("lost", "found")]), [Kind::RunLoose]);
        assert_eq!(with(&[run("service battery", "panel")]), [Kind::RunLoop], "two runs into one point");
        assert_eq!(
            with(&[run("panel", "a"), run("a", "b"), run("b", "panel"), load("a"), load("b")]),
            [Kind::RunLoop],
            "a loop of runs"
        );
        assert_eq!(with(&[run("panel", "starter battery")]), [Kind::RunLoop], "both batteries joined");
        assert_eq!(with(&[run("panel", "spare")]), [Kind::RunIdle], "a run that feeds nothing");
        assert_eq!(with(&[load("pannel")]), [Kind::LoadLoose]);
        assert_eq!(with(&[load("")]), [Kind::LoadLoose]);
        assert_eq!(kinds(&[run("service battery", "cut-off")]), [Kind::NoLoads]);
    }

    /// Runs that begin at the cut-off with none that leads to it: it sits at the posts.
    #[test]
    fn a_cut_off_without_a_run_sits_at_the_posts() {
        assert_eq!(kinds(&[run("cut-off", "panel"), load("panel")]), [Kind::CutOffLoose]);
        assert_eq!(kinds(&sound()), []);
    }

    #[test]
    fn devices_want_their_connections() {
        let catalogue = Catalogue::embedded().unwrap();
        let text = format!("{HEAD}{}", sound().concat())
            .replace("kind = \"none\"", "kind = \"dc-dc\"")
            .replace("senses_at = \"service battery\"", "senses_at = \"elsewhere\"");
        let findings = check(&Installation::of(&read(&text, &catalogue).plan, &catalogue));
        let kinds: Vec<_> = findings.iter().map(|f| f.kind).collect();
        assert_eq!(kinds, [Kind::ChargerLoose, Kind::ChargerLoose, Kind::SensingLoose]);
    }

    #[test]
    fn runs_are_taken_in_any_order_and_direction() {
        let forward = kinds(&[run("service battery", "a"), run("a", "b"), run("b", "c"), load("c")]);
        let backward = kinds(&[load("c"), run("c", "b"), run("b", "a"), run("a", "service battery")]);
        assert_eq!(forward, backward);
    }
}
