//! Results of the promise: each trial of the days without charge and of the usual week, and how close it was.

use super::fact::{Many, facts, many};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::battery::NearBank;
use crate::engine::simulate::promise::{Promise, Trial};
use crate::quantity::*;

facts! { Promise, "promise", "what the design promises, tried with its very settings", |_, _| Subject::ServiceBattery;
    HELD: bool = "held", "Days without charge held", "whether every load had its power under all conditions", |p, _| p.held();
    DAYS: Days = "days_without_charge_d", "Days without charge", "from full, nothing coming in", |_, at| at.site.days_without_charge;
    KEPT_BY: Option<Volts> = "kept_by_v", "Kept by a cut-off up to", "the highest setting that keeps them; null where none does", |p, _| p.kept_by;
    WITHOUT_CHARGE: Many<Trial> = "without_charge", "Days without charge", "new and aged, coldest and warmest", |p, at| many(&p.without_charge, at);
    USUAL: Many<Trial> = "usual", "Usual week", "at the end of its life, coldest and warmest", |p, at| many(&p.usual, at);
}

facts! { NearBank, "near-bank", "a smaller bank of equal blocks, and how long it lasts", |_, _| Subject::ServiceBattery;
    CAPACITY: AmpHours = "capacity_ah", "Bank", "of the whole bank", |n, _| n.bank.capacity;
    BLOCKS: u32 = "blocks", "Blocks", "in parallel", |n, _| n.bank.blocks;
    BLOCK: AmpHours = "block_ah", "Block", "capacity of one", |n, _| n.bank.block;
    LASTS: Days = "lasts_d", "Lasts", "until power first fails, in the hardest trial", |n, _| n.lasts;
    OF: Days = "of_d", "Of", "the days without charge that are planned", |n, _| n.of;
    MASS: Kilograms = "mass_kg", "Mass", "of the whole bank", |n, _| n.bank.mass;
    PRICE: Option<Money> = "price", "Price", "by the user's own prices; null where none is entered", |n, _| n.price;
}

facts! { Trial, "trial", "one trial of the promise", |_, _| Subject::ServiceBattery;
    CONDITIONS: &'static str = "conditions", "Battery and air", "how old and how cold", |t, _| t.conditions.brief();
    HELD: bool = "held", "Held", "whether every load had its power", |t, _| t.held();
    TRIED: Hours = "tried_h", "Tried for", "how long it was tried", |t, _| t.tried;
    FAILED_AT: Option<Hours> = "failed_at_h", "Fails after", "when power first failed; null when it held", |t, _| t.failed_at;
    LOAD: Option<String> = "load", "Load without power", "the load that stood without it for longest; null for none", |t, at| t.worst.and_then(|(load, _)| Some(at.site.loads.get(load)?.name.clone()));
    UNSERVED: Option<Hours> = "unserved_h", "For", "hours that load stood without power", |t, _| t.worst.map(|(_, hours)| hours);
    DEAD: Hours = "dead_hours_h", "Battery gave nothing", "hours in which the battery gave nothing", |t, _| t.dead;
    LOWEST: Share = "lowest", "Lowest charge", "lowest state of charge", |t, _| t.lowest;
    LOWEST_AT: Hours = "lowest_at_h", "After", "hours after the beginning", |t, _| t.lowest_at;
    SENSED: Option<Volts> = "lowest_v", "Lowest voltage", "where the cut-off senses, for longer than its delay", |t, _| t.sensed.map(|s| s.0);
    SENSED_AT: Option<Hours> = "lowest_v_at_h", "After", "hours after the beginning, to the hour", |t, _| t.sensed.map(|s| s.1);
    MARGIN: Option<Volts> = "margin_v", "Above the cut-off", "by how much the lowest voltage stays above it; below 0 where it opens", |t, _| t.margin();
}
