//! What only the catalogue as a whole can show: that nothing is missing and that rows fit each other.

use super::carrier::STOCKS;
use super::conductor::{Conductor, Family};
use super::read::CatalogueError;
use super::rows::Rows;
use super::rules::{NUMBERS, NumberRow};

/// Put the rows into the order in which they are shown and searched.
pub(super) fn sort(catalogue: &mut Rows) {
    catalogue.conductors.sort_by(|a, b| {
        let family = |c: &Conductor| match c.family {
            Family::Metric => 0,
            Family::Tinned => 1,
            Family::Awg => 2,
            Family::RoadVehicle => 3,
        };
        family(a).cmp(&family(b)).then(a.area.get().total_cmp(&b.area.get()))
    });
    catalogue.insulations.sort_by(|a, b| a.max.get().total_cmp(&b.max.get()));
    catalogue.studs.sort_by(|a, b| a.diameter.get().total_cmp(&b.diameter.get()));
    catalogue
        .angles
        .sort_by(|a, b| a.leg.get().total_cmp(&b.leg.get()).then(a.thickness.get().total_cmp(&b.thickness.get())));
    catalogue.workshop.lugs.sort_by(|a, b| a.up_to.get().total_cmp(&b.up_to.get()));
    catalogue.workshop.pulls.sort_by(|a, b| a.area.get().total_cmp(&b.area.get()));
    catalogue.workshop.sleeves.sort_by(|a, b| a.expanded.get().total_cmp(&b.expanded.get()));
    catalogue.fuse_styles.sort_by_key(|s| s.order);
}

/// Problems between rows; the file named is the one to mend.
pub(super) fn check_whole(catalogue: &Rows, numbers: &[NumberRow]) -> Vec<CatalogueError> {
    let mut errors = Vec::new();
    let mut add = |file: &str, message: String| {
        errors.push(CatalogueError { file: file.into(), line: None, column: None, message });
    };
    for missing in NUMBERS.iter().filter(|known| !numbers.iter().any(|n| n.key == known.key)) {
        let key = missing.key;
        add(missing.file, format!("the number “{key}” is missing; add a [[number]] row with that key"));
    }
    let parts = [
        ("chemistries", catalogue.chemistries.is_empty()),
        ("conductors", catalogue.conductors.is_empty()),
        ("insulation.toml", catalogue.insulations.is_empty()),
        ("ampacity.toml", catalogue.ampacity.row.is_empty()),
        ("fuse-links", catalogue.fuse_styles.is_empty()),
        ("places.toml", catalogue.places.is_empty()),
        ("rules.toml", catalogue.rules.drop_class.is_empty() || catalogue.rules.placement.is_empty()),
        ("carrier.toml", catalogue.studs.is_empty()),
        ("carrier.toml", catalogue.stud_classes.is_empty()),
        ("carrier.toml", catalogue.shocks.is_empty()),
        ("carrier.toml", catalogue.angles.is_empty() || STOCKS.iter().any(|key| catalogue.stock(key).is_none())),
        ("workshop.toml", catalogue.workshop.lugs.is_empty()),
        ("devices.toml", catalogue.devices.chargers.sizes.is_empty()),
        ("devices.toml", catalogue.devices.mains_chargers.sizes.is_empty()),
        ("devices.toml", catalogue.devices.cut_offs.sizes.is_empty()),
    ];
    for (file, _) in parts.iter().filter(|(_, empty)| *empty) {
        add(file, "a part of the catalogue is empty; at least one row is needed".into());
    }
    for insulation in &catalogue.insulations {
        if !catalogue.ampacity.columns_c.contains(&insulation.column) {
            let columns: Vec<String> = catalogue.ampacity.columns_c.iter().map(|c| c.get().to_string()).collect();
            let (key, columns) = (&insulation.key, columns.join(", "));
            add(
                "insulation.toml",
                format!("key “{key}”: `table_column_c` is no column of the ampacity table; they are {columns}"),
            );
        }
    }
    for row in &catalogue.look_ups {
        for region in row.regions.iter().filter(|key| catalogue.region(key).is_none()) {
            let key = &row.key;
            add("regions.toml", format!("key “{key}”: `regions` names “{region}”, which is no [[region]]"));
        }
    }
    for load in &catalogue.loads {
        if catalogue.rules.class(&load.drop).is_none() {
            let (name, drop) = (&load.name, &load.drop);
            add("loads.toml", format!("name “{name}”: `drop` is “{drop}”, which is no loss allowed of rules.toml"));
        }
    }
    errors
}
