//! The limits card as text: what governs first, then each bound by its name, the design kick on its way, kick tolerance,
//! filling, trip speeds, what it all rests on and how old that is.

use crate::kill_sheet::{Leaf, remark};
use crate::sheet::caution;
use crate::text::{Align, Span, Style, Text};
use rigwright_margins::kill_sheet::Constants;
use rigwright_margins::limits_card::{Bound, LimitsCard, WHOLE_ANNULUS};
use rigwright_margins::{Answer, Place};
use rigwright_units::Kind;

/// What every limits card carries.
pub(crate) const CAUTIONS: [&str; 5] = [
    "MAASP is not a set point of the choke. Do not open the choke below the schedule to respect it without a decision of the \
     person in charge: a second influx follows.",
    "The bounds hold with this mud all the way up: with another mud, another test or gas beside the weak point they are others. \
     Compute anew after every change of mud weight.",
    "A leak-off weight holds at the shoe; weaker zones may lie below it. An integrity test is not a fracture pressure.",
    "Kick tolerance: one bubble of gas at the bottom, the smaller of initial shut-in and gas at the weakest depth, no margin \
     for the choke; in oil-based mud gas dissolves and the figures are not to be relied on.",
    "A planning and training aid: nameplates, the last inspection and test, the approved well-control manual and local code govern.",
];

/// The limits cards of one or several sections.
pub fn limits_card(leaf: &Leaf, cards: &[LimitsCard]) -> Text {
    let mut text = Text::default();
    leaf.head(&mut text, "limits card");
    for card in cards {
        for stale in &card.stale {
            let section = &leaf.fit.well.sections[card.order.section].name;
            let words = format!("{section}: {}", remark(stale, leaf.units));
            text.hanging(8, Span::new("STALE", Style::Strong), &words);
        }
    }
    for card in cards {
        section(&mut text, leaf, card);
    }
    text.heading("beware");
    for caution in CAUTIONS {
        text.hanging(2, "·".into(), caution);
    }
    text.blank();
    caution(&mut text);
    text
}

fn section(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    let name = &leaf.fit.well.sections[card.order.section].name;
    let depth = |depth: f64| leaf.show(depth, Kind::Depth);
    text.heading(&format!("{name}, hole at {}", depth(card.order.hole_depth)));
    if let Some(shoe) = card.shoe {
        leaf.told(text, "last shoe", &depth(shoe));
    }
    leaf.told(text, "mud in the hole", &leaf.show(card.mud_weight, Kind::Density));
    if card.constants != Constants::EXACT {
        let what = format!("{}, at shoe and open hole and for filling; all else exact", card.constants.name);
        leaf.told(text, "constants", &what);
    }
    governs(text, leaf, card);
    for caution in &card.cautions {
        text.hanging(2, "·".into(), &remark(caution, leaf.units));
    }
    text.blank();
    bounds(text, leaf, card);
    passing(text, leaf, card);
    tolerance(text, leaf, card);
    text.paragraph(2, Style::Accent, "filling");
    crate::trip_sheet::fills(text, leaf, &card.fills);
    text.blank();
    speeds(text, leaf, card);
    rests(text, leaf, card);
}

fn governs(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    let pressure = |value: Option<f64>| value.map_or_else(|| "unknown".to_owned(), |value| leaf.down(value, Kind::Pressure));
    let at_most = |bound: &Bound, value: Option<f64>| format!("{}: {}", pressure(value), bound.name);
    if let Some(bound) = card.governing() {
        leaf.told(text, "shut in, at most", &at_most(bound, bound.still));
    } else if let Some(bound) = card.least() {
        let words = format!("{}, of the bounds that are known; others are unknown, not without end", at_most(bound, bound.still));
        leaf.told(text, "shut in, at most", &words);
    }
    if let Some((bound, speed)) = card.least_pumping().zip(card.pump_speed) {
        let words = format!("{}, at {}", at_most(bound, bound.pumping), leaf.show(speed, Kind::StrokeRate));
        leaf.told(text, "while pumping, at most", &words);
    }
}

fn bounds(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    if card.bounds.is_empty() {
        return;
    }
    text.paragraph(2, Style::Accent, "casing pressure with this mud all the way, at most");
    let mut rows = vec![["", "at", "still", "pumping", "from"].map(str::to_owned).to_vec()];
    let pressure = |value: Option<f64>| value.map_or_else(|| "unknown".to_owned(), |value| leaf.down(value, Kind::Pressure));
    for bound in &card.bounds {
        let place = match bound.place {
            Place::Surface => "surface".to_owned(),
            Place::Depth(depth) => leaf.show(depth, Kind::Depth),
        };
        let source = if bound.still.is_some() { bound.source.to_owned() } else { format!("wants {}", bound.source) };
        rows.push(vec![bound.name.clone(), place, pressure(bound.still), pressure(bound.pumping), source]);
    }
    text.table(2, &[Align::Left, Align::Right, Align::Right, Align::Right, Align::Left], &rows);
    text.blank();
}

fn passing(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    let Some(passing) = &card.passing else { return };
    let volume = leaf.show(passing.volume, Kind::Volume);
    let words =
        format!("the design kick of {volume} on its way out, driller's method: what the choke may show changes as it passes");
    text.paragraph(2, Style::Accent, &words);
    let strokes = |pumped: f64| {
        card.pump_output.map_or_else(|| leaf.show(pumped, Kind::Volume), |output| leaf.number(pumped / output, Kind::Count))
    };
    let counted = if card.pump_output.is_some() { "strokes" } else { "pumped" };
    let mut rows =
        vec![["", counted, "choke shows", "open hole bears", "equipment bears", "governs"].map(str::to_owned).to_vec()];
    let bears = |value: Option<f64>| value.map_or_else(|| "unknown".to_owned(), |value| leaf.down(value, Kind::Pressure));
    for at in &passing.instants {
        let governs = match at.open_hole_governs() {
            Some(true) => "open hole",
            Some(false) => "equipment",
            None => "unknown",
        };
        rows.push(vec![
            at.what.to_owned(),
            strokes(at.pumped),
            leaf.up(at.choke, Kind::Pressure),
            bears(at.open_hole),
            bears(at.equipment),
            governs.to_owned(),
        ]);
    }
    text.table(2, &[Align::Left, Align::Right, Align::Right, Align::Right, Align::Right, Align::Left], &rows);
    let change = match passing.change {
        Some(pumped) => format!("What governs changes after {} {counted}.", strokes(pumped)),
        None => "One and the same governs all the way, or a limit is unknown.".to_owned(),
    };
    text.paragraph(2, Style::Plain, &change);
    text.blank();
}

fn tolerance(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    if card.tolerance.is_empty() {
        return;
    }
    text.paragraph(2, Style::Accent, "kick tolerance, as volume at the bottom");
    let kick = leaf.fit.well.kick;
    let drilled = kick.intensity.map_or_else(
        || "drilled".to_owned(),
        |intensity| format!("drilled, {} of intensity", leaf.show(intensity, Kind::Density)),
    );
    let mut rows =
        vec![vec!["hole at".to_owned(), drilled, "weakest at".to_owned(), "swabbed".to_owned(), "weakest at".to_owned()]];
    for at in &card.tolerance {
        let mut row = vec![leaf.show(at.hole_depth, Kind::Depth)];
        for answer in [&at.drilled, &at.swabbed] {
            match answer {
                Answer::Judged(judged) => {
                    let all = judged.limit.name == WHOLE_ANNULUS;
                    row.push(if all { "whole annulus".to_owned() } else { leaf.down(judged.limit.capacity, Kind::Volume) });
                    row.push(judged.place.depth().map_or_else(|| "surface".to_owned(), |depth| leaf.show(depth, Kind::Depth)));
                }
                Answer::Missing(entries) => row.extend([format!("unknown, wants {}", entries.join(", ")), String::new()]),
                Answer::DoesNotArise(why) => row.extend([crate::text::cut(why, 40), String::new()]),
                Answer::Told(_) => row.extend([String::new(), String::new()]),
            }
        }
        rows.push(row);
    }
    text.table(2, &[Align::Right; 5], &rows);
    text.blank();
}

fn speeds(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    if card.speeds.is_empty() {
        return;
    }
    text.paragraph(2, Style::Accent, "fastest mean speeds over a stand that keep the wanted margins");
    let mut rows = vec![["bit or shoe at", "pulling out", "running in", "casing"].map(str::to_owned).to_vec()];
    let speed = |value: Option<f64>| {
        let show = |value: f64| leaf.down(value, Kind::Speed);
        value.map_or_else(|| "—".to_owned(), |value| crate::trip_sheet::fastest(value, show))
    };
    for row in &card.speeds {
        rows.push(vec![leaf.show(row.bit_depth, Kind::Depth), speed(row.pulling), speed(row.running), speed(row.casing)]);
    }
    text.table(2, &[Align::Right; 4], &rows);
    text.paragraph(2, Style::Faint, "\"any\": no crew moves pipe faster than is safe there");
    text.blank();
}

fn rests(text: &mut Text, leaf: &Leaf, card: &LimitsCard) {
    text.paragraph(2, Style::Accent, "rests on");
    for rest in &card.rests {
        let date = rest.date.map_or_else(|| "no day".to_owned(), |date| format!("of {date}"));
        let age = match rest.age {
            Some(days) if days < 0 => ", after the day of this card: a plan".to_owned(),
            Some(1) => ", a day old".to_owned(),
            Some(days) => format!(", {days} days old"),
            None => String::new(),
        };
        leaf.told(text, &format!("  {}", rest.what), &format!("{date}{age}: {}", rest.note));
    }
    text.blank();
}
