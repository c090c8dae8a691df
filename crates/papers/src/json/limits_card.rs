//! Limits cards, one a section.

use super::kill_sheet::Value;
use super::trip_sheet::FillJson;
use super::{FORMAT, Units, depth, print};
use crate::kill_sheet::{Leaf, remark};
use crate::limits_card::CAUTIONS;
use rigwright_margins::limits_card::{Bound, LimitsCard, Passage, Passing, Speeds};
use rigwright_margins::{Answer, Place};
use rigwright_units::{Kind, System};
use serde::Serialize;

/// Limits cards with all that their text tells.
pub fn limits_card(leaf: &Leaf, cards: &[LimitsCard]) -> String {
    let mut cautions: Vec<&'static str> = CAUTIONS.to_vec();
    cautions.push(crate::sheet::CAUTIONS[0]);
    print(&Document {
        format: FORMAT,
        units: Units::of(leaf.units),
        well: &leaf.fit.well.name,
        rig: &leaf.fit.rig.name,
        as_of: leaf.as_of.to_string(),
        cards: cards.iter().map(|card| card_json(leaf, card)).collect(),
        cautions,
    })
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    units: Units,
    well: &'a str,
    rig: &'a str,
    as_of: String,
    cards: Vec<CardJson<'a>>,
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct CardJson<'a> {
    section: &'a str,
    hole_depth: f64,
    vertical_depth: f64,
    shoe: Option<f64>,
    mud_weight: Value,
    pump_speed: Option<Value>,
    stale: Vec<String>,
    governs: Option<String>,
    governs_pumping: Option<String>,
    bounds: Vec<BoundJson>,
    passing: Option<PassingJson>,
    tolerance: Vec<ToleranceJson>,
    fill: Vec<FillJson>,
    speeds: Vec<SpeedsJson>,
    rests_on: Vec<RestJson>,
    cautions: Vec<String>,
}

#[derive(Serialize)]
struct BoundJson {
    name: String,
    depth: Option<f64>,
    still: Option<Value>,
    pumping: Option<Value>,
    source: &'static str,
}

#[derive(Serialize)]
struct PassingJson {
    volume: Value,
    formation_pressure: Value,
    strokes_at_change: Option<f64>,
    instants: Vec<PassageJson>,
}

#[derive(Serialize)]
struct PassageJson {
    what: &'static str,
    strokes: Option<f64>,
    choke: Value,
    open_hole: Option<Value>,
    equipment: Option<Value>,
    open_hole_governs: Option<bool>,
}

#[derive(Serialize)]
struct ToleranceJson {
    hole_depth: f64,
    drilled: KickJson,
    swabbed: KickJson,
}

#[derive(Serialize)]
struct KickJson {
    volume: Option<Value>,
    weakest: Option<f64>,
    limit: Option<&'static str>,
    missing: Vec<&'static str>,
    why: Option<&'static str>,
}

#[derive(Serialize)]
struct SpeedsJson {
    bit_depth: f64,
    pulling: Option<Value>,
    running: Option<Value>,
    casing: Option<Value>,
}

#[derive(Serialize)]
struct RestJson {
    what: &'static str,
    date: Option<String>,
    days: Option<i32>,
    note: &'static str,
}

fn card_json<'a>(leaf: &Leaf<'a>, card: &LimitsCard) -> CardJson<'a> {
    let units = leaf.units;
    let strokes = |pumped: f64| card.pump_output.map(|output| pumped / output);
    CardJson {
        section: &leaf.fit.well.sections[card.order.section].name,
        hole_depth: depth(card.order.hole_depth, units),
        vertical_depth: depth(card.vertical_depth, units),
        shoe: card.shoe.map(|shoe| depth(shoe, units)),
        mud_weight: Value::of(card.mud_weight, Kind::Density, units),
        pump_speed: card.pump_speed.map(|speed| Value::of(speed, Kind::StrokeRate, units)),
        stale: card.stale.iter().map(|one| remark(one, units)).collect(),
        governs: card.governing().map(|bound| bound.name.clone()),
        governs_pumping: card.least_pumping().map(|bound| bound.name.clone()),
        bounds: card.bounds.iter().map(|bound| bound_json(bound, units)).collect(),
        passing: card.passing.as_ref().map(|passing| passing_json(passing, &strokes, units)),
        tolerance: card
            .tolerance
            .iter()
            .map(|at| ToleranceJson {
                hole_depth: depth(at.hole_depth, units),
                drilled: kick_json(&at.drilled, units),
                swabbed: kick_json(&at.swabbed, units),
            })
            .collect(),
        fill: card.fills.iter().map(|fill| FillJson::of(fill, units)).collect(),
        speeds: card.speeds.iter().map(|row| speeds_json(row, units)).collect(),
        rests_on: card
            .rests
            .iter()
            .map(|rest| RestJson {
                what: rest.what,
                date: rest.date.map(|date| date.to_string()),
                days: rest.age,
                note: rest.note,
            })
            .collect(),
        cautions: card.cautions.iter().map(|one| remark(one, units)).collect(),
    }
}

fn bound_json(bound: &Bound, units: System) -> BoundJson {
    let pressure = |value: Option<f64>| value.map(|value| Value::of(value, Kind::Pressure, units));
    BoundJson {
        name: bound.name.clone(),
        depth: match bound.place {
            Place::Surface => None,
            Place::Depth(at) => Some(depth(at, units)),
        },
        still: pressure(bound.still),
        pumping: pressure(bound.pumping),
        source: bound.source,
    }
}

fn passing_json(passing: &Passing, strokes: &dyn Fn(f64) -> Option<f64>, units: System) -> PassingJson {
    let pressure = |value: f64| Value::of(value, Kind::Pressure, units);
    let passage = |at: &Passage| PassageJson {
        what: at.what,
        strokes: strokes(at.pumped),
        choke: pressure(at.choke),
        open_hole: at.open_hole.map(pressure),
        equipment: at.equipment.map(pressure),
        open_hole_governs: at.open_hole_governs(),
    };
    PassingJson {
        volume: Value::of(passing.volume, Kind::Volume, units),
        formation_pressure: pressure(passing.formation_pressure),
        strokes_at_change: passing.change.and_then(strokes),
        instants: passing.instants.iter().map(passage).collect(),
    }
}

fn kick_json(answer: &Answer, units: System) -> KickJson {
    let mut kick = KickJson { volume: None, weakest: None, limit: None, missing: Vec::new(), why: None };
    match answer {
        Answer::Judged(judged) => {
            kick.volume = Some(Value::of(judged.limit.capacity, Kind::Volume, units));
            kick.limit = Some(judged.limit.name);
            kick.weakest = judged.place.depth().map(|at| depth(at, units));
        }
        Answer::Missing(entries) => kick.missing.clone_from(entries),
        Answer::DoesNotArise(why) => kick.why = Some(why),
        Answer::Told(_) => {}
    }
    kick
}

fn speeds_json(row: &Speeds, units: System) -> SpeedsJson {
    let speed = |value: Option<f64>| value.map(|value| Value::of(value, Kind::Speed, units));
    SpeedsJson {
        bit_depth: depth(row.bit_depth, units),
        pulling: speed(row.pulling),
        running: speed(row.running),
        casing: speed(row.casing),
    }
}
