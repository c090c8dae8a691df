//! Both methods in one picture of numbers.

use super::Leaf;
use crate::text::{Align, Style, Text};
use rigwright_margins::kill_sheet::{Course, KillSheet, Kinder, Peak};
use rigwright_units::Kind;

pub(super) fn both(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let (Some(driller), Some(weighted)) = (&sheet.driller, &sheet.weighted) else { return };
    text.heading("driller's method and wait and weight, formation pressure held at the bottom");
    let at = |peak: &Peak, kind: Kind| {
        format!("{} at {}", leaf.up(peak.value, kind), leaf.number(sheet.volumes.strokes(peak.pumped), Kind::Count))
    };
    let row = |name: &str, a: String, b: String| vec![name.to_owned(), a, b];
    let mut rows = vec![row("highest, at strokes", "driller's method".to_owned(), "wait and weight".to_owned())];
    let peaks = |pick: fn(&Course) -> Peak, kind: Kind| (at(&pick(driller), kind), at(&pick(weighted), kind));
    let (a, b) = peaks(|course| course.choke, Kind::Pressure);
    rows.push(row("choke", a, b));
    let (a, b) = peaks(|course| course.shoe, Kind::Pressure);
    rows.push(row("shoe", a, b));
    if let Some(weak) = &sheet.weakest {
        let name = format!("weakest depth, {}", leaf.show(weak.point.depth, Kind::Depth));
        rows.push(row(&name, at(&weak.driller, Kind::Pressure), at(&weak.weighted, Kind::Pressure)));
    }
    let (a, b) = peaks(|course| course.gain, Kind::Volume);
    rows.push(row("pit gain", a, b));
    text.table(2, &[Align::Left, Align::Right, Align::Right], &rows);
    text.paragraph(2, Style::Strong, &kinder(leaf, sheet, driller, weighted));
    if let Some(first) = driller.rows.first() {
        let (told, read) = (first.instant.choke_pressure, sheet.order.readings.casing_pressure);
        text.paragraph(
            2,
            Style::Plain,
            &format!(
                "With this gas the casing would read {} shut in; it read {}.",
                leaf.show(told, Kind::Pressure),
                leaf.show(read, Kind::Pressure)
            ),
        );
    }
    text.paragraph(
        2,
        Style::Plain,
        "Driller's second circulation brings kill mud round: hold the schedule above, the casing pressure stays at the shut-in drill pipe pressure until kill mud turns the bit, and falls to nought.",
    );
    if sheet.rounding_overbalance > 0.0 {
        let more = leaf.up(sheet.rounding_overbalance, Kind::Pressure);
        text.paragraph(
            2,
            Style::Plain,
            &format!("With the rounded kill mud at the bit up to {more} comes on top of every pressure of wait and weight."),
        );
    }
    text.blank();
    rows_of(text, leaf, sheet, "driller's method, first circulation", driller);
    rows_of(text, leaf, sheet, "wait and weight", weighted);
}

fn kinder(leaf: &Leaf, sheet: &KillSheet, driller: &Course, weighted: &Course) -> String {
    let strokes = |volume: f64| leaf.number(sheet.volumes.strokes(volume), Kind::Count);
    let mud = weighted.instants.kill_mud_at_bit.map_or_else(|| "never".to_owned(), strokes);
    match (sheet.kinder, driller.instants.gas_at_shoe) {
        (Some(Kinder::WaitAndWeight { by }), _) => format!(
            "Wait and weight is kinder to the shoe, by {}: kill mud turns the bit after {mud} strokes, before the shoe feels its highest pressure by driller's method, after {}.",
            leaf.down(by, Kind::Pressure),
            strokes(driller.shoe.pumped)
        ),
        (_, Some(gas)) if weighted.instants.kill_mud_at_bit.is_some_and(|mud| gas <= mud) => format!(
            "The shoe feels the same by both methods: gas comes to it after {} strokes, before kill mud turns the bit after {mud}. Waiting to weight up only gives the gas time to rise.",
            strokes(gas)
        ),
        _ => "The shoe feels the same by both methods: its highest pressure is that of the shut-in well, or comes before kill mud turns the bit.".to_owned(),
    }
}

fn rows_of(text: &mut Text, leaf: &Leaf, sheet: &KillSheet, name: &str, course: &Course) {
    text.paragraph(2, Style::Plain, name);
    let (pressure, depth) = (leaf.unit(Kind::Pressure), leaf.unit(Kind::Depth));
    let mut rows = vec![
        ["", "strokes", "gas top", "gas end", "gain", "choke", "shoe", "weakest"].map(str::to_owned).to_vec(),
        ["", "", depth, depth, leaf.unit(Kind::Volume), pressure, pressure, pressure].map(str::to_owned).to_vec(),
    ];
    for row in &course.rows {
        let instant = &row.instant;
        rows.push(vec![
            row.what.to_owned(),
            leaf.number(sheet.volumes.strokes(instant.pumped), Kind::Count),
            leaf.number(instant.gas_top, Kind::Depth),
            leaf.number(instant.gas_bottom, Kind::Depth),
            leaf.number(instant.gas_volume, Kind::Volume),
            leaf.number(instant.choke_pressure, Kind::Pressure),
            leaf.number(instant.weak_pressure, Kind::Pressure),
            row.weakest.map_or_else(|| "—".to_owned(), |pressure| leaf.number(pressure, Kind::Pressure)),
        ]);
    }
    let mut columns = [Align::Right; 8];
    columns[0] = Align::Left;
    text.table(4, &columns, &rows);
    text.paragraph(4, Style::Faint, "depths of the gas are vertical");
    text.blank();
}
