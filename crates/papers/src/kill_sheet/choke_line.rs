//! The choke line from preventers on the sea bed: the one list of its rows, for screen and paper.

use crate::paper::Pen;
use rigwright_margins::kill_sheet::KillSheet;
use rigwright_units::Kind;

/// Over the rows.
pub(crate) const CHOKE_LINE: &str = "choke line, from preventers on the sea bed";

/// What it loses, what to hold, both lines together and the riser, each with its words; empty with preventers at surface.
pub(crate) fn rows(pen: &Pen, sheet: &KillSheet) -> Vec<(&'static str, String)> {
    let Some(line) = &sheet.choke_line else { return Vec::new() };
    let told = |value: Option<f64>| value.map_or_else(|| "unknown".to_owned(), |value| pen.up(value, Kind::Pressure));
    let volume =
        |volume: f64, strokes: f64| format!("{}, {} strokes", pen.show(volume, Kind::Volume), pen.show(strokes, Kind::Count));
    let how = if line.measured { "measured" } else { "by the flow curve" };
    let (loss, kill) = (told(line.loss), told(line.with_kill_mud));
    let mut rows = vec![
        ("loses at the slow rate", format!("{loss}, {how}; {kill} with kill mud, which stands on the bottom at the end")),
        ("hold at the choke", format!("{} once on rate; the kill line stays at what it read", told(line.on_rate))),
    ];
    if let Some(over) = line.overbalance.filter(|over| *over > 0.0) {
        rows.push(("stands on the well", pen.up(over, Kind::Pressure)));
    }
    if let Some(both) = &line.both {
        let (loss, hold) = (pen.up(both.loss, Kind::Pressure), pen.up(both.on_rate, Kind::Pressure));
        let share = pen.show(both.share, Kind::Fraction);
        rows.push((
            "with the kill line too",
            format!(
                "{loss} lost, {share} of the flow in the choke line; hold {hold} once on rate, nothing is left to read still"
            ),
        ));
        let holds = volume(both.volume, both.strokes);
        rows.push(("both lines hold", format!("{holds}; the tables are for the choke line alone")));
        if both.overbalance > 0.0 {
            rows.push(("stands on it then", pen.up(both.overbalance, Kind::Pressure)));
        }
    }
    if let Some(riser) = &sheet.volumes.riser {
        let holds = volume(riser.volume, riser.strokes);
        rows.push(("riser", format!("{holds}, to be displaced to kill mud after the kill")));
    }
    rows
}
