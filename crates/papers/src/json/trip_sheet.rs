//! A trip sheet.

use super::kill_sheet::Value;
use super::{FORMAT, Units, depth, print};
use crate::kill_sheet::{Leaf, remark};
use crate::trip_sheet::{CAUTIONS, run_words};
use rigwright_margins::trip_sheet::{Each, Fill, Moved, Row, TripSheet, Way};
use rigwright_units::{Kind, System};
use serde::Serialize;

/// A trip sheet with all that its text tells.
pub fn trip_sheet(leaf: &Leaf, sheet: &TripSheet) -> String {
    let units = leaf.units;
    let value = |value: f64, kind: Kind| Value::of(value, kind, units);
    let mut cautions: Vec<String> = sheet.cautions.iter().map(|one| remark(one, units)).collect();
    cautions.extend(CAUTIONS.map(str::to_owned));
    cautions.push(crate::sheet::CAUTIONS[0].to_owned());
    print(&Document {
        format: FORMAT,
        units: Units::of(units),
        well: &leaf.fit.well.name,
        rig: &leaf.fit.rig.name,
        as_of: leaf.as_of.to_string(),
        section: &leaf.fit.well.sections[sheet.order.section].name,
        hole_depth: depth(sheet.order.hole_depth, units),
        bit_depth: depth(sheet.order.bit_depth, units),
        way: run_words(sheet.order.run),
        mud_weight: value(sheet.mud_weight, Kind::Density),
        speed: value(sheet.speed, Kind::Speed),
        pump_output: sheet.pump_output.map(|output| value(output, Kind::VolumePerStroke)),
        volume: value(sheet.total(), Kind::Volume),
        trip_tank: sheet.trip_tank.map(|tank| value(tank, Kind::Volume)),
        trip_tanks: sheet.tanks(),
        fill: sheet.kinds.iter().map(|fill| FillJson::of(fill, units)).collect(),
        slug: sheet.slug.map(|slug| SlugJson {
            volume: value(slug.volume, Kind::Volume),
            weight: value(slug.weight, Kind::Density),
            dry_length: value(slug.dry_length, Kind::Depth),
            gain: value(slug.gain, Kind::Volume),
        }),
        trip_margin: sheet.margin.map(|margin| MarginJson {
            wanted: value(margin.wanted, Kind::Density),
            swab: margin.swab.map(|swab| value(swab, Kind::Density)),
            by_yield_point: margin.by_yield.map(|margin| value(margin, Kind::Density)),
        }),
        tightest: sheet.tightest.as_ref().map(|row| RowJson::of(row, units)),
        rows: sheet.rows.iter().map(|row| RowJson::of(row, units)).collect(),
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
    section: &'a str,
    hole_depth: f64,
    bit_depth: f64,
    way: &'static str,
    mud_weight: Value,
    speed: Value,
    pump_output: Option<Value>,
    volume: Value,
    trip_tank: Option<Value>,
    trip_tanks: Option<f64>,
    fill: Vec<FillJson>,
    slug: Option<SlugJson>,
    trip_margin: Option<MarginJson>,
    tightest: Option<RowJson>,
    rows: Vec<RowJson>,
    cautions: Vec<String>,
}

#[derive(Serialize)]
struct SlugJson {
    volume: Value,
    weight: Value,
    dry_length: Value,
    gain: Value,
}

#[derive(Serialize)]
struct MarginJson {
    wanted: Value,
    swab: Option<Value>,
    by_yield_point: Option<Value>,
}

/// Filling for a kind of pipe.
#[derive(Serialize)]
pub(super) struct FillJson {
    pipe: String,
    each: &'static str,
    length: Value,
    steel: Value,
    bore: Value,
    dry: WayJson,
    wet: WayJson,
}

#[derive(Serialize)]
struct WayJson {
    volume: Value,
    strokes: Option<f64>,
    level_falls: Value,
    pressure_falls: Value,
    before_filling: f64,
}

impl FillJson {
    pub(super) fn of(fill: &Fill, units: System) -> FillJson {
        let value = |value: f64, kind: Kind| Value::of(value, kind, units);
        let way = |way: &Way| WayJson {
            volume: value(way.volume, Kind::Volume),
            strokes: way.strokes,
            level_falls: value(way.fall, Kind::Depth),
            pressure_falls: value(way.drop, Kind::Pressure),
            before_filling: way.before,
        };
        FillJson {
            pipe: fill.name.clone(),
            each: match fill.each {
                Each::Stand => "stand",
                Each::Joint => "joint",
            },
            length: value(fill.length, Kind::Depth),
            steel: value(fill.displacement, Kind::VolumePerLength),
            bore: value(fill.capacity, Kind::VolumePerLength),
            dry: way(&fill.dry),
            wet: way(&fill.wet),
        }
    }
}

#[derive(Serialize)]
struct RowJson {
    count: u32,
    bit_depth: f64,
    what: String,
    length: Value,
    volume: Value,
    volume_so_far: Value,
    pressure_falls: Option<Value>,
    moved: Option<MovedJson>,
}

#[derive(Serialize)]
struct MovedJson {
    weakest: f64,
    change: Value,
    left: Value,
    fastest: Value,
}

impl RowJson {
    fn of(row: &Row, units: System) -> RowJson {
        let value = |value: f64, kind: Kind| Value::of(value, kind, units);
        let moved = |moved: Moved| MovedJson {
            weakest: depth(moved.weakest, units),
            change: value(moved.change, Kind::Pressure),
            left: value(moved.left, Kind::Pressure),
            fastest: value(moved.fastest, Kind::Speed),
        };
        RowJson {
            count: row.count,
            bit_depth: depth(row.bit_depth, units),
            what: row.what.clone(),
            length: value(row.length, Kind::Depth),
            volume: value(row.volume, Kind::Volume),
            volume_so_far: value(row.total, Kind::Volume),
            pressure_falls: row.drop.map(|drop| value(drop, Kind::Pressure)),
            moved: row.moved.map(moved),
        }
    }
}
