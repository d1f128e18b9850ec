//! The same circuit by the simulator ngspice (Debian package `ngspice`).

use super::circuit::Circuit;
use std::fmt::Write as _;
use std::process::Command;

/// What hangs at the end of a way.
pub struct Consumer<'a> {
    /// Its plus and minus node.
    pub at: (usize, usize),
    /// What it holds.
    pub kind: &'a str,
    /// Watts at 12 V.
    pub asked: f64,
    /// Below this it is a resistance.
    pub lowest: f64,
}

/// Whether the simulator is there.
pub fn there() -> bool {
    Command::new("ngspice").arg("--version").output().is_ok_and(|o| o.status.success())
}

/// Volts from one node to another, and what the consumer draws.
pub fn spice(circuit: &Circuit, consumer: Option<Consumer<'_>>, (red, black): (usize, usize)) -> (f64, f64) {
    let mut deck = String::from("built circuit\n.options rshunt=1e11\n");
    for (n, (a, b, ohms)) in circuit.resistors.iter().enumerate() {
        writeln!(deck, "r{n} {a} {b} {:e}", ohms.max(1e-7)).unwrap();
    }
    for (n, (plus, volts, inside, minus)) in circuit.sources.iter().enumerate() {
        writeln!(deck, "v{n} s{n} {minus} dc {volts}\nri{n} s{n} {plus} {inside:e}\n.nodeset v({plus})={volts}")
            .unwrap();
    }
    if let Some(Consumer { at: (plus, minus), kind, asked, lowest }) = &consumer {
        let across = format!("v(c,{minus})");
        let (whole, low) = match *kind {
            "power" => (format!("{asked}/{across}"), asked / (lowest * lowest)),
            "current" => (format!("{}", asked / 12.0), asked / 12.0 / lowest),
            _ => (format!("{across}*{}", asked / 144.0), asked / 144.0),
        };
        let law = format!("{across} > {lowest} ? {whole} : {across}*{low}");
        writeln!(deck, "vc {plus} c dc 0\nbc c {minus} i = {law}\n.nodeset v(c)=12.5 v({plus})=12.5").unwrap();
    }
    let volts = |node: usize| if node == 0 { "0".to_string() } else { format!("v({node})") };
    let amps = if consumer.is_some() { "i(vc)" } else { "0" };
    let (red, black) = (volts(red), volts(black));
    let asks = format!("let shown = {red} - {black}\nlet drawn = {amps}\nprint shown drawn");
    write!(deck, ".control\nset numdgt=9\nop\n{asks}\n.endc\n.end\n").unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("built.cir");
    std::fs::write(&file, &deck).unwrap();
    let output = Command::new("ngspice").arg("-b").arg(&file).current_dir(folder.path()).output().unwrap();
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let of = |name: &str| {
        let line =
            text.lines().find_map(|l| l.trim().strip_prefix(name)?.trim().strip_prefix('=')?.trim().parse().ok());
        line.unwrap_or_else(|| panic!("no {name} from ngspice:\n{text}\n{deck}"))
    };
    (of("shown"), of("drawn"))
}
