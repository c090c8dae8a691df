//! The same well in field units and in metric ones gives the same model.

use crate::{Shelf, root};
use rigwright_wellfile::read;

/// Field unit, metric unit, and what one of the first is in the second. Factors from NIST SP 811 (2008).
const UNITS: [(&str, &str, f64); 17] = [
    ("ft", "m", 0.3048),
    ("in", "mm", 25.4),
    ("ppg", "kg/m3", 119.826_427_316_897),
    ("klbf", "kN", 4.448_221_615_260_5),
    ("gpm", "L/min", 3.785_411_784),
    ("ft/h", "m/h", 0.3048),
    ("ft/min", "m/min", 0.3048),
    ("kft-lbf", "kN.m", 1.355_817_948_331_4),
    ("lb/ft", "kg/m", 1.488_163_943_569_55),
    ("psi", "kPa", 6.894_757_293_168_36),
    ("ksi", "MPa", 6.894_757_293_168_36),
    ("bbl", "m3", 0.158_987_294_928),
    ("gal", "L", 3.785_411_784),
    ("hp", "kW", 0.745_699_871_582_27),
    ("degF", "degC", 0.0),
    ("degF/100 ft", "degC/100 m", 1.0 / 1.8 / 0.3048),
    ("spm", "1/min", 1.0),
];

/// A number as the example files write it: `2500`, `4.276`, `12 1/4`.
fn number(text: &str) -> Option<f64> {
    let (whole, part) = text.rsplit_once(' ').map_or(("0", text), |(whole, part)| (whole, part));
    match part.split_once('/') {
        Some((above, below)) => Some(whole.parse::<f64>().ok()? + above.parse::<f64>().ok()? / below.parse::<f64>().ok()?),
        None => text.parse().ok(),
    }
}

fn metric(quantity: &str) -> Option<String> {
    let start = quantity.find(|c: char| c.is_ascii_alphabetic())?;
    let (value, unit) = (number(quantity[..start].trim())?, quantity[start..].trim());
    let (_, to, factor) = UNITS.iter().find(|(from, _, _)| *from == unit)?;
    let value = if unit == "degF" { (value - 32.0) / 1.8 } else { value * factor };
    Some(format!("{value:.12} {to}"))
}

/// A file with every quantity in text turned into metric units; names stay.
fn twin(text: &str) -> (String, usize) {
    let mut turned = 0;
    let lines = text.lines().map(|line| {
        if line.starts_with("name") || line.starts_with("string") || line.starts_with('#') {
            return line.to_owned();
        }
        let pieces: Vec<String> = line
            .split('"')
            .enumerate()
            .map(|(index, piece)| match metric(piece).filter(|_| index % 2 == 1) {
                Some(metric) => {
                    turned += 1;
                    metric
                }
                None => piece.to_owned(),
            })
            .collect();
        pieces.join("\"")
    });
    let text = lines.collect::<Vec<_>>().join("\n");
    (text, turned)
}

/// The numbers and words of a model as it prints itself.
fn words(model: &str) -> Vec<&str> {
    model.split(|c: char| " ,:()[]{}\n".contains(c)).filter(|word| !word.is_empty()).collect()
}

#[test]
fn law_a_metric_twin_gives_the_same_model() {
    for name in ["ostrick", "tolvane"] {
        let file = |path: &str| std::fs::read_to_string(root(path)).unwrap();
        let (well, rig) = (file(&format!("examples/{name}.toml")), file("examples/rigs/anvil-12.toml"));
        let (twin_well, turned) = twin(&well);
        let (twin_rig, turned_in_rig) = twin(&rig);
        assert!(turned + turned_in_rig > 90, "only {turned} and {turned_in_rig} quantities were turned");
        let shelf = Shelf::new(&[("w.toml", &well), ("r.toml", &rig), ("tw.toml", &twin_well), ("tr.toml", &twin_rig)]);
        let field = format!("{:?}", read("w.toml", Some("r.toml"), &shelf).unwrap().fit);
        let metric =
            format!("{:?}", read("tw.toml", Some("tr.toml"), &shelf).unwrap_or_else(|all| panic!("{:#?}", all.list)).fit);
        let (field, metric) = (words(&field), words(&metric));
        assert_eq!(field.len(), metric.len());
        for (a, b) in field.iter().zip(&metric) {
            let same = match (a.parse::<f64>(), b.parse::<f64>()) {
                (Ok(a), Ok(b)) => (a - b).abs() <= 1e-9 * a.abs().max(1e-6) || (a.is_infinite() && b.is_infinite()),
                _ => a == b,
            };
            assert!(same, "{name}: {a} is not {b}");
        }
    }
}
