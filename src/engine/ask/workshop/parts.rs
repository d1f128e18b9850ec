//! What is bought, and how much of it, as it is sold?
//!
//! Needed quantities are summed over the cut list and the design; bought ones
//! are rounded up to whole packs (`[[sale]]` of the catalogue).

use crate::catalogue::{Catalogue, FuseStyle};
use crate::engine::ask::workshop::control::control_wires;
use crate::engine::ask::workshop::cut::device_in_minus;
use crate::engine::ask::workshop::piece::{Cut, Lug, round_up};
use crate::engine::ask::workshop::price;
use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::run_name;
use crate::engine::parts::terminal::Polarity;
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::simulate::fault::sources::Sources;
use crate::plan::{ChargerKind, Choice, Locking, Obstacle, RodFoot};
use crate::quantity::*;
use std::collections::BTreeMap;

/// One line of the parts list.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// `device`, `cable`, `lug`, `pin`, `sleeve`, `clip`, `grommet`, `conduit`, `fuse`, `holder`, `steel`, `stud`,
    /// `notice`, `label`.
    pub group: &'static str,
    /// What to ask for.
    pub what: String,
    /// What the plan needs.
    pub needed: Figure,
    /// How many packs to buy.
    pub packs: u32,
    /// Quantity in one pack.
    pub pack: Figure,
    /// What is bought in all.
    pub bought: Figure,
    /// What a pack costs by the user's own prices.
    pub each: Option<Money>,
}

/// What all parts come to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Total {
    /// Sum of what has a price; `None` where nothing has one.
    pub sum: Option<Money>,
    /// Lines of the list without a price.
    pub unpriced: usize,
}

/// Of a parts list.
pub fn total(parts: &[Part]) -> Total {
    // What is not bought costs nothing.
    let bought = || parts.iter().filter(|part| part.packs > 0);
    let each = |part: &Part| part.each.map(|each| each.get() * f64::from(part.packs));
    let known: Vec<f64> = bought().filter_map(each).collect();
    let sum = (!known.is_empty()).then(|| Money::new(known.iter().sum()));
    Total { sum, unpriced: bought().count() - known.len() }
}

/// The parts of a design and its cut list.
pub fn parts_list(design: &Design, cuts: &[Cut]) -> Vec<Part> {
    let site = &design.installation;
    let mut list = List { site, catalogue: &site.catalogue, parts: Vec::new() };
    list.devices(site, design);
    list.cable(cuts);
    let control = control_wires(design);
    for wire in &control {
        let what = format!("{}, a third colour, {} wire (common practice, not sized here)", wire.area, wire.name);
        list.add("cable", what, wire.length.into());
    }
    list.ends(cuts);
    list.bars(cuts);
    list.on_the_way(site, design);
    list.fuses(site, design);
    list.hold_down(site, design);
    list.notices(site, design);
    for wire in &control {
        list.piece("fuse", format!("{} fuse-link with holder, for the {} wire", wire.fuse, wire.name), 1);
    }
    if !cuts.is_empty() {
        list.piece("label", "wire label, printed, for each end of each piece".into(), 2 * (cuts.len() + control.len()));
    }
    list.parts
}

struct List<'a> {
    site: &'a Installation,
    catalogue: &'a Catalogue,
    parts: Vec<Part>,
}

impl List<'_> {
    fn piece(&mut self, group: &'static str, what: String, count: usize) {
        self.add(group, what, Figure::new(count as f64, Unit::Count));
    }

    fn add(&mut self, group: &'static str, what: String, needed: Figure) {
        self.add_as(group, group, what, needed);
    }

    /// `sold`: under which name it is sold.
    fn add_as(&mut self, group: &'static str, sold: &str, what: String, needed: Figure) {
        let size = self.catalogue.workshop.pack(sold);
        let packs = if size > 0.0 { (needed.value / size - 1e-9).ceil().max(0.0) } else { 0.0 };
        let (pack, bought) = (Figure::new(size, needed.unit), Figure::new(packs * size, needed.unit));
        let each = price::each(self.site, group, &what);
        self.parts.push(Part { group, what, needed, packs: packs as u32, pack, bought, each });
    }

    fn devices(&mut self, site: &Installation, design: &Design) {
        if let Some(bank) = &design.battery.bank {
            let name = self.catalogue.chemistry(&bank.chemistry).map_or(bank.chemistry.clone(), |c| c.name.clone());
            self.piece("device", format!("service battery, {name}, {}", bank.block), bank.blocks as usize);
            if let Some(battery) = self.parts.last_mut() {
                battery.each = price::of_block(site, bank, battery.group, &battery.what);
            }
        }
        if let Some(current) = design.charger.current {
            let kind = if site.charger.kind == ChargerKind::Relay { "charging relay" } else { "DC-DC charger" };
            self.piece("device", format!("{kind}, {current}, for {}", design.charger.output), 1);
        }
        if let Some(rating) = design.cut_off.rating {
            self.piece("device", format!("cut-off, {rating}, set to {}", design.cut_off.cut), 1);
        }
        if let Some(rating) = site.main_switch.rating {
            self.piece("device", format!("main switch, {rating}"), 1);
        }
        for plug in &site.plugs {
            let name = self.catalogue.workshop.plug(&plug.kind).map_or(plug.kind.as_str(), |k| &k.name);
            self.piece("device", format!("plug with socket, {name}, {}", plug.name), 1);
        }
        for board in &site.boards {
            let ways = counted(board.ways.map_or(site.circuits_at(&board.name), |ways| ways as usize), "circuit");
            let kind = board.kind.key().replace('-', " ");
            self.piece("device", format!("{kind} for {ways}, {}", board.name), 1);
        }
        if site.inverter.rating > Watts::ZERO {
            self.piece("device", format!("inverter, {}", site.inverter.rating), 1);
        }
        if site.solar.array > Watts::ZERO {
            self.array(site, design);
        }
        if site.mains.current > Amps::ZERO {
            self.piece("device", format!("mains charger, {}", site.mains.current), 1);
        }
    }

    /// The panels with what belongs to them.
    fn array(&mut self, site: &Installation, design: &Design) {
        let solar = &site.solar;
        let strings = match (solar.strings, solar.in_series) {
            (1, 1) => String::new(),
            (strings, series) => format!(" as {strings} × {series} in series"),
        };
        self.piece("device", format!("solar array, {}{strings}, with controller", solar.array), 1);
        let cable = design.charger.array_cable.as_ref();
        if let Some(device) = cable.and_then(|c| c.device) {
            let what = format!("breaker or fuse with holder {device}, for direct current at the panels' voltage");
            self.piece("fuse", what, 1);
        }
        if solar.string_fuses {
            let most = solar.panel_fuse.map_or_else(|| "as its panel's label says".into(), |a| format!("at most {a}"));
            self.piece("fuse", format!("string fuse in a holder, {most}, one for each string"), solar.strings as usize);
        }
        if cable.is_some_and(|c| c.size.is_some()) {
            self.piece("pin", "plug and socket of the panels' own make, for their cable".into(), 2);
        }
    }

    /// Metres for each size, insulation and colour.
    fn cable(&mut self, cuts: &[Cut]) {
        let mut metres: BTreeMap<(String, String, Polarity, String), Metres> = BTreeMap::new();
        for cut in cuts {
            let key = (cut.size.clone(), cut.insulation.clone(), cut.polarity, cut.colour.clone());
            *metres.entry(key).or_default() += cut.length;
        }
        let mut rows: Vec<_> = metres.into_iter().collect();
        let area = |label: &str| self.area(label).get();
        rows.sort_by(|a, b| area(&a.0.0).total_cmp(&area(&b.0.0)).then_with(|| a.0.cmp(&b.0)));
        for ((size, insulation, polarity, colour), length) in rows {
            let insulation = self.catalogue.insulation(&insulation).map_or(insulation.clone(), |i| i.name.clone());
            // A sum of lengths in steps of centimetres; anything finer is rounding.
            let length = round_up(length, 0.01);
            self.add("cable", format!("{size}, {colour} ({}), {insulation}", polarity.word()), length.into());
        }
    }

    /// Clips along each run, a grommet for each edge, conduit where something moves, burns or throws stones.
    fn on_the_way(&mut self, site: &Installation, design: &Design) {
        let laid = || design.runs.iter().filter(|r| r.size.is_some()).filter_map(|r| site.runs.get(r.run));
        let met = |obstacle: Obstacle| laid().map(|r| r.passes.count(obstacle)).sum::<usize>();
        let rules = &self.catalogue.rules;
        let spacing = rules.clip_spacing.value.get().max(0.01);
        let clips: f64 = laid().map(|r| (r.length.get() / spacing).floor()).sum();
        let guard = |times: usize| Metres::new(rules.guard.value.get() * times as f64);
        let conduit = guard(met(Obstacle::Hinge) + met(Obstacle::Tyre));
        let heat = guard(met(Obstacle::Exhaust));
        if clips > 0.0 {
            self.piece(
                "clip",
                format!("clip with rubber lining, one every {}", rules.clip_spacing.value),
                clips as usize,
            );
        }
        if met(Obstacle::Edge) > 0 {
            self.piece(
                "grommet",
                "rubber grommet to the hole, for the cable and its return".into(),
                met(Obstacle::Edge),
            );
        }
        for (length, what) in
            [(conduit, "flexible conduit, over the cable"), (heat, "heat-proof sleeve, over the cable")]
        {
            if length > Metres::ZERO {
                self.add("conduit", what.into(), length.into());
            }
        }
    }

    /// A bar for each place where several negatives meet.
    fn bars(&mut self, cuts: &[Cut]) {
        let mut bars: BTreeMap<&str, usize> = BTreeMap::new();
        for end in cuts.iter().flat_map(|c| &c.ends).filter(|end| end.is_on_negative_bar()) {
            *bars.entry(&end.at).or_default() += 1;
        }
        for (bar, studs) in bars {
            self.piece("device", format!("{bar}, with {studs} studs"), 1);
        }
    }

    /// Steel by its flat pieces; studs with what goes on them; rods.
    fn hold_down(&mut self, site: &Installation, design: &Design) {
        let Some(carrier) = &design.carrier else { return };
        let wanted = &site.hold_down;
        for blank in carrier.shape.iter().flat_map(|shape| &shape.blanks) {
            let (name, length, width, thick) = (blank.piece.words(), blank.length, blank.width, blank.thickness);
            let what = match blank.piece.of_angle() {
                true => format!("{name}, angle {width} x {thick}, {length} long"),
                false => format!("{name}, flat {length} x {width} x {thick}"),
            };
            self.piece("steel", what, blank.count as usize);
        }
        let Some(strength) = &carrier.strength else { return };
        let nuts = match carrier.locking {
            Locking::DoubleNut => "two plain nuts",
            Locking::NylonInsert => "a nut with nylon insert",
            Locking::None => "a plain nut",
        };
        let (sizes, class, count) = (&carrier.sizes, &wanted.stud_class, strength.studs.len());
        let stud = &sizes.stud;
        let what = format!("stud or bolt {stud}, class {class}, with {nuts} and two washers; length to measure");
        self.piece("stud", what, count);
        let (side, thick) = (sizes.spreader, sizes.spreader_thickness);
        self.piece("steel", format!("spreader plate {side} x {side} x {thick}, with a hole for {stud}"), count);
        if let Some(length) = sizes.spacer {
            self.piece("steel", format!("spacer tube for {stud}, {length} long"), count);
        }
        if let Some(rods) = &strength.hold_down {
            let ends = match wanted.rod_foot {
                RodFoot::Nut => "at each end",
                RodFoot::Hook => "at its upper end, its lower end bent to a hook",
            };
            let what = format!("hold-down rod {}, class {class}, with {nuts} {ends}", sizes.rod);
            self.piece("stud", what, rods.rods as usize);
        }
    }

    /// What somebody must read who never saw these papers.
    fn notices(&mut self, site: &Installation, design: &Design) {
        let mains = site.inverter.rating > Watts::ZERO;
        let all = [
            (design.battery.bank.is_some(), "at each battery: second battery in this vehicle, part both"),
            (site.main_switch.rating.is_some(), "at the main switch: what it parts, and what stays live"),
            (site.solar.array > Watts::ZERO, "at the solar controller: live while there is light"),
            (mains, "at the inverter and its sockets: mains voltage, also when unplugged"),
        ];
        for (n, (_, what)) in all.into_iter().enumerate().filter(|(_, (there, _))| *there) {
            self.piece("notice", format!("notice {what}"), if n == 0 { 2 } else { 1 });
        }
    }

    fn area(&self, label: &str) -> SquareMillimetres {
        Cable::labelled(self.catalogue, label).map_or(SquareMillimetres::ZERO, |c| c.conductor.area)
    }

    /// Lugs by conductor and stud, sleeve by diameter.
    fn ends(&mut self, cuts: &[Cut]) {
        let mut lugs: BTreeMap<(String, &Lug), usize> = BTreeMap::new();
        let mut sleeves: Vec<(Millimetres, usize)> = Vec::new();
        for cut in cuts {
            for lug in [&cut.lug_from, &cut.lug_to] {
                if !matches!(lug, Lug::Holder | Lug::ToFit) {
                    *lugs.entry((cut.size.clone(), lug)).or_default() += 1;
                }
            }
            if let Some(d) = cut.sleeve {
                match sleeves.iter_mut().find(|s| s.0 == d) {
                    Some(s) => s.1 += 2,
                    None => sleeves.push((d, 2)),
                }
            }
        }
        let mut lugs: Vec<_> = lugs.into_iter().collect();
        lugs.sort_by(|a, b| self.area(&a.0.0).get().total_cmp(&self.area(&b.0.0).get()));
        for ((size, lug), count) in lugs {
            let needed = Figure::new(count as f64, Unit::Count);
            let large = self.area(&size).get() >= self.catalogue.rules.large_lug.value.get();
            let sold = if large { "large lug" } else { "lug" };
            match lug {
                Lug::Ring(stud) => self.add_as("lug", sold, format!("ring lug for {size} and stud {stud}"), needed),
                _ => {
                    let what = format!("pin of the plug's own make for {size}; see that it takes this size");
                    self.add("pin", what, needed);
                }
            }
        }
        sleeves.sort_by(|a, b| a.0.get().total_cmp(&b.0.get()));
        let each = self.catalogue.rules.sleeve_length.value.as_metres();
        for (d, count) in sleeves {
            self.add("sleeve", format!("adhesive-lined shrink sleeve {d}, 3:1"), (each * count as f64).into());
        }
    }

    /// Fuse-links with their spares, and a holder for each in use that sits in no board.
    fn fuses<'s>(&mut self, site: &'s Installation, design: &Design) {
        let mut links: Vec<(&'s FuseStyle, Amps, usize)> = Vec::new();
        let (mut missing, mut holders) = (Vec::new(), BTreeMap::<&'s str, usize>::new());
        let mut link = |style: &'s FuseStyle, rating: Amps, count: usize| match links
            .iter_mut()
            .find(|l| l.0.key == style.key && l.1 == rating)
        {
            Some(link) => link.2 += count,
            None => links.push((style, rating, count)),
        };
        for (run, fuse) in design.runs.iter().flat_map(|r| r.fuses.iter().map(|f| (r.run, f))) {
            let Some((rating, style)) = fuse.rating.zip(site.catalogue.fuse_style(&fuse.style)) else {
                missing.push(format!("{} at {}", run_name(&site.runs, run), fuse.at));
                continue;
            };
            if !site.in_way(run) || fuse.far_end || device_in_minus(site, run) {
                *holders.entry(&style.name).or_default() += 1;
            }
            link(style, rating, 1);
        }
        let blocks = Sources::of(site, &design.battery, &design.charger).blocks;
        match (blocks, site.service_battery.block_fuse.zip(design.battery.bank.as_ref())) {
            (Some(each), _) => {
                link(each.style, each.rating, each.count as usize);
                *holders.entry(&each.style.name).or_default() += each.count as usize;
            }
            (None, Some((rating, bank))) if bank.blocks > 1 => {
                missing.push(format!("each block of the bank, {rating}"));
            }
            _ => {}
        }
        links.sort_by(|a, b| a.0.name.cmp(&b.0.name).then(a.1.get().total_cmp(&b.1.get())));
        let spare = self.catalogue.rules.spare_fuses.value.max(0.0) as usize;
        for (style, rating, count) in links {
            // A breaker is closed again.
            match style.reset {
                Some(_) => self.piece("fuse", format!("{} {rating}", style.name), count),
                None => self.piece("fuse", format!("{} {rating}, {spare} of them spare", style.name), count + spare),
            }
        }
        for place in missing {
            self.piece("fuse", format!("for {place}: none fits, see findings before you buy"), 0);
        }
        for (style, count) in holders {
            self.piece("holder", format!("holder for {style}"), count);
        }
    }
}
