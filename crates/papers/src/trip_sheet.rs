//! The trip sheet as text: filling by kind of pipe, the slug, what swabbing takes, and every stand with room for what was
//! measured.

use crate::kill_sheet::{Leaf, remark};
use crate::sheet::caution;
use crate::text::{Align, Style, Text, cut};
use rigwright_margins::kill_sheet::Constants;
use rigwright_margins::trip_sheet::{FASTEST, Fill, Row, Run, TripSheet, Way};
use rigwright_units::Kind;

/// Where the crew writes.
const BLANK: &str = "______";

/// What every trip sheet carries.
pub(crate) const CAUTIONS: [&str; 5] = [
    "Volumes are those of the steel by its weight, joints included; what the last trip took is the better measure. Compare \
     with it, not with theory alone: a hole that takes less than it should is flowing, whatever the flow check said.",
    "Flow check off bottom, at the shoe and before the collars (common practice). The absence of flow is no proof: swabbed gas \
     below the bit does not flow yet.",
    "Fill before the pressure falls by 75 psi, or every five stands of drill pipe, whichever is less: 30 CFR 250.456, from \
     memory; verify the current text and local code.",
    "Falls of level and pressure are those of one stand left unfilled, with that pipe standing in the top of the hole.",
    "A planning and training aid: the driller, the trip tank and the approved well-control manual govern.",
];

/// The trip sheet.
pub fn trip_sheet(leaf: &Leaf, sheet: &TripSheet) -> Text {
    let mut text = Text::default();
    leaf.head(&mut text, "trip sheet");
    ground(&mut text, leaf, sheet);
    if !sheet.cautions.is_empty() {
        text.heading("beware");
        for caution in &sheet.cautions {
            text.hanging(2, "·".into(), &remark(caution, leaf.units));
        }
        text.blank();
    }
    text.heading("filling, by kind of pipe");
    fills(&mut text, leaf, &sheet.kinds);
    text.blank();
    pulling(&mut text, leaf, sheet);
    rows(&mut text, leaf, sheet);
    text.heading("cautions of every trip sheet");
    for caution in CAUTIONS {
        text.hanging(2, "·".into(), caution);
    }
    text.blank();
    caution(&mut text);
    text
}

/// Which way, in plain words.
pub(crate) const fn run_words(run: Run) -> &'static str {
    match run {
        Run::Out { wet: false } => "out of the hole, dry",
        Run::Out { wet: true } => "out of the hole, wet, its mud not given back",
        Run::In { float: true } => "into the hole, on a float",
        Run::In { float: false } => "into the hole, open",
        Run::Casing { float: true } => "casing into the hole, on a float",
        Run::Casing { float: false } => "casing into the hole, open",
    }
}

fn ground(text: &mut Text, leaf: &Leaf, sheet: &TripSheet) {
    let section = &leaf.fit.well.sections[sheet.order.section];
    let depth = |depth: f64| leaf.show(depth, Kind::Depth);
    let from = match sheet.order.run {
        Run::Out { .. } => format!("from {}", depth(sheet.order.bit_depth)),
        Run::In { .. } | Run::Casing { .. } => format!("to {}", depth(sheet.order.bit_depth)),
    };
    leaf.told(
        text,
        "hole",
        &format!("{}, drilled to {}, below {}", section.name, depth(sheet.order.hole_depth), leaf.fit.well.datum),
    );
    leaf.told(text, "trip", &format!("{} {from}", run_words(sheet.order.run)));
    leaf.told(text, "mud in the hole", &leaf.show(sheet.mud_weight, Kind::Density));
    if sheet.constants != Constants::EXACT {
        leaf.told(text, "constants", &format!("{}, for filling and the slug; all else exact", sheet.constants.name));
    }
    leaf.told(text, "planned speed", &format!("{}, the mean over a stand", leaf.show(sheet.speed, Kind::Speed)));
    if let Some(output) = sheet.pump_output {
        leaf.told(text, "pump output", &leaf.show(output, Kind::VolumePerStroke));
    }
    let verb = if matches!(sheet.order.run, Run::Out { .. }) { "takes" } else { "gives" };
    leaf.told(text, "the hole in all", &format!("{verb} {}", leaf.show(sheet.total(), Kind::Volume)));
    if let Some((tank, tanks)) = sheet.trip_tank.zip(sheet.tanks()) {
        let words = format!("{}: {} of them in all", leaf.show(tank, Kind::Volume), leaf.number(tanks, Kind::Count));
        leaf.told(text, "trip tank", &words);
    }
    text.blank();
}

/// The table of filling by kind of pipe.
pub(crate) fn fills(text: &mut Text, leaf: &Leaf, fills: &[Fill]) {
    let (volume, depth, pressure) = (leaf.unit(Kind::Volume), leaf.unit(Kind::Depth), leaf.unit(Kind::Pressure));
    let mut rows = vec![
        ["one of", "", "fill", "strokes", "level by", "pressure by", "fill after"].map(str::to_owned).to_vec(),
        ["", "", volume, "", depth, pressure, ""].map(str::to_owned).to_vec(),
    ];
    for fill in fills {
        rows.push(fill_row(leaf, fill, "dry", &fill.dry));
        rows.push(fill_row(leaf, fill, "wet", &fill.wet));
    }
    let mut columns = [Align::Right; 7];
    columns[0] = Align::Left;
    columns[1] = Align::Left;
    text.table(2, &columns, &rows);
}

fn fill_row(leaf: &Leaf, fill: &Fill, how: &str, way: &Way) -> Vec<String> {
    let name = format!("{}, {} of {}", cut(&fill.name, 14), fill.each.word(), leaf.show(fill.length, Kind::Depth));
    let s = if way.before > 1.5 { "s" } else { "" };
    let before = format!("{} {}{s}", leaf.number(way.before, Kind::Count), fill.each.word());
    vec![
        if how == "dry" { name } else { String::new() },
        how.to_owned(),
        leaf.number(way.volume, Kind::Volume),
        way.strokes.map_or_else(|| "—".to_owned(), |strokes| leaf.number(strokes, Kind::Count)),
        leaf.number(way.fall, Kind::Depth),
        leaf.number(way.drop, Kind::Pressure),
        if way.before < 1.0 { "while pulling".to_owned() } else { before },
    ]
}

/// A speed that is no bound is none.
pub(crate) fn fastest(speed: f64, show: impl Fn(f64) -> String) -> String {
    if speed < FASTEST { show(speed) } else { "any".to_owned() }
}

fn pulling(text: &mut Text, leaf: &Leaf, sheet: &TripSheet) {
    let told = sheet.slug.is_some() || sheet.margin.is_some() || sheet.tightest.is_some();
    if !told {
        return;
    }
    text.heading("slug, swab and surge");
    if let Some(slug) = &sheet.slug {
        leaf.told(
            text,
            "slug",
            &format!("{} of {}", leaf.show(slug.volume, Kind::Volume), leaf.show(slug.weight, Kind::Density)),
        );
        let (dry, gain) = (leaf.show(slug.dry_length, Kind::Depth), leaf.show(slug.gain, Kind::Volume));
        leaf.told(text, "leaves dry", &format!("{dry} of pipe; {gain} come back while it falls, which is no influx"));
    }
    if let Some((row, moved)) = sheet.tightest.as_ref().and_then(|row| Some((row, row.moved?))) {
        let out = matches!(sheet.order.run, Run::Out { .. });
        let bit = if out { row.bit_depth + row.length } else { row.bit_depth };
        let what = if out { "swab allowance" } else { "surge allowance" };
        let (change, weakest) = (leaf.up(moved.change, Kind::Pressure), leaf.show(moved.weakest, Kind::Depth));
        let words = format!(
            "{change} at {weakest} with the bit at {}; {} left there of still mud's room less the wanted margin",
            leaf.show(bit, Kind::Depth),
            leaf.down(moved.left, Kind::Pressure)
        );
        leaf.told(text, what, &words);
        leaf.told(text, "no faster than", &format!("{} there", fastest(moved.fastest, |speed| leaf.down(speed, Kind::Speed))));
    }
    if let Some(margin) = &sheet.margin {
        let density = |value: Option<f64>| value.map_or_else(|| "unknown".to_owned(), |value| leaf.up(value, Kind::Density));
        let words = format!(
            "{} wanted; swabbing takes {}; the old rule from the yield point asks for {}",
            leaf.show(margin.wanted, Kind::Density),
            density(margin.swab),
            density(margin.by_yield)
        );
        leaf.told(text, "trip margin", &words);
    }
    text.blank();
}

fn rows(text: &mut Text, leaf: &Leaf, sheet: &TripSheet) {
    let out = matches!(sheet.order.run, Run::Out { .. });
    text.heading(if out { "stand by stand: what the hole should take" } else { "stand by stand: what the hole should give" });
    let (depth, volume, pressure) = (leaf.unit(Kind::Depth), leaf.unit(Kind::Volume), leaf.unit(Kind::Pressure));
    let falls = if out { "falls" } else { "" };
    let moved = if out { "swab" } else { "surge" };
    let head = ["no", "bit at", "", "expected", "in all", "measured", "in all", "differs", falls, moved, "no faster"];
    let units = ["", depth, "", volume, volume, volume, volume, volume, if out { pressure } else { "" }, pressure];
    let mut rows = vec![
        head.map(str::to_owned).to_vec(),
        units.iter().map(|unit| (*unit).to_owned()).chain([leaf.unit(Kind::Speed).to_owned()]).collect(),
    ];
    rows.extend(sheet.rows.iter().map(|row| row_cells(leaf, row)));
    let mut columns = [Align::Right; 11];
    columns[2] = Align::Left;
    text.table(0, &columns, &rows);
    text.paragraph(
        2,
        Style::Faint,
        "\"falls\" is what this row alone takes off the bottom, unfilled; swab or surge is that at the weakest depth at the planned speed; \"any\" speed: no crew moves pipe faster than is safe there",
    );
    text.blank();
}

fn row_cells(leaf: &Leaf, row: &Row) -> Vec<String> {
    let unknown = || "—".to_owned();
    let moved = row.moved.as_ref();
    vec![
        row.count.to_string(),
        leaf.number(row.bit_depth, Kind::Depth),
        cut(&row.what, 14),
        leaf.number(row.volume, Kind::Volume),
        leaf.number(row.total, Kind::Volume),
        BLANK.to_owned(),
        BLANK.to_owned(),
        BLANK.to_owned(),
        row.drop.map_or_else(String::new, |drop| leaf.number(drop, Kind::Pressure)),
        moved.map_or_else(unknown, |moved| leaf.number(moved.change, Kind::Pressure)),
        moved.map_or_else(unknown, |moved| fastest(moved.fastest, |speed| leaf.number(speed, Kind::Speed))),
    ]
}
