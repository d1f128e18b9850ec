//! Loads: what uses energy, when, and how much a day.

use super::form::{self, form};
use super::pane::{Cell, Column, Pane, Table};
use super::results::{Columns, Facts};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::simulate::budget::Budget;
use crate::engine::{LoadBudget, LoadSupply};
use crate::plan::{Place, Section};

/// The panes: all loads, what they add up to, the load in hand, the inverter.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![
        table(scene),
        a_day(scene),
        form(scene, format!("Fields of {}", in_hand(&scene)), &[Section::Load], scene.item, chosen),
        form(scene, "Job and inverter", &[Section::Job, Section::Inverter], 0, form::nothing_chosen),
    ]
}

fn in_hand(scene: &Scene<'_>) -> String {
    scene.plan().loads.get(scene.item).map_or_else(|| "the load".into(), |l| format!("“{}”", l.name))
}

fn table(scene: Scene<'_>) -> Pane<'_> {
    let (plan, design) = (scene.plan(), scene.design());
    let field = move |key| form::column(scene, Section::Load, key, chosen);
    let power = move |i: usize| {
        let by_current = plan.loads.get(i).is_some_and(|l| l.current.is_some());
        form::cell(&scene, Place::load(i, if by_current { "current_a" } else { "power_w" }), chosen)
    };
    let budget = move |i: usize| Some((design.budget.loads.get(i)?, scene.at(i)));
    let supply = move |i: usize| Some((design.loads.get(i)?, scene.at(i)));
    let columns = Columns::new(scene)
        .own(Column::words("Load").widest(22), field("name"))
        .own(Column::words("At").widest(16), field("at"))
        .own(Column::figures("Count"), field("count"))
        .own(Column::figures("Power").unit("of one"), power)
        .own(Column::figures("Hours").unit("a day"), field("duty.hours_a_day"))
        .own(Column::figures("Duty").unit("25 °C"), field("duty.share_on"))
        .facts([LoadBudget::CHARGE, LoadBudget::RUNNING, LoadBudget::ENERGY], budget)
        .fact(LoadSupply::VOLTAGE, supply)
        .fact(LoadSupply::FITS, supply)
        .widest(14)
        .but(move |i, cell| match design.loads.get(i) {
            Some(s) if s.fits => cell.role(Role::Good),
            Some(s) => {
                let why = s.drop_share.map_or("not fed".into(), |share| format!("drop {}", scene.show(share)));
                Cell { text: format!("no, {why}"), ..cell }.role(Role::Stop)
            }
            None => cell,
        })
        .own(Column::figures("Lead"), field("lead_m"))
        .own(Column::figures("Lead").unit("size").widest(12), field("lead_size"))
        .own(Column::figures("Lead").unit("fuse"), field("lead_fuse_a"))
        .fact(LoadBudget::SHARE, budget)
        .headed("Duty")
        .with_unit(|percent| format!("mean {percent}"));
    let name = move |i: usize| plan.loads.get(i).map_or_else(String::new, |l| l.name.clone());
    let table = columns.table(plan.loads.len(), name);
    let empty = "no loads yet; n picks one from the list";
    Pane::table("Loads", Table { list: Some(Section::Load), empty, ..table })
}

/// What is used for a field of a load that the plan leaves out.
fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let budget = scene.design().budget.loads.get(place.index)?;
    match place.key {
        "lead_size" | "lead_fuse_a" => super::runs::chosen(scene, place),
        "duty.hours_a_day" => Some(Cell::fact(scene, LoadBudget::HOURS, budget, scene.at(place.index))),
        _ => None,
    }
}

fn a_day(scene: Scene<'_>) -> Pane<'_> {
    let (b, at) = (&scene.design().budget, scene.at(0));
    let mut facts = Facts::new(scene);
    facts.list(
        b,
        at,
        &[
            Budget::CHARGE,
            Budget::ENERGY,
            Budget::BY_DAY,
            Budget::BY_NIGHT,
            Budget::DRIVING,
            Budget::PARKED,
            Budget::STANDING,
        ],
    );
    if scene.plan().inverter.rating.get() > 0.0 {
        facts.list(b, at, &[Budget::INVERTER_IDLE]);
    }
    facts.list(b, at, &[Budget::PEAK]);
    let starts = b.surge_load.and_then(|i| scene.plan().loads.get(i)).map_or("", |l| l.name.as_str());
    let remark = if starts.is_empty() { String::new() } else { format!("when the {starts} starts") };
    facts.told(b, at, Budget::SURGE, remark, Role::Muted);
    facts.list(b, at, &[Budget::USUAL, Budget::LIGHT, Budget::SUMMER_DAY, Budget::HOT_DAY]);
    facts.pane("What it adds up to")
}
