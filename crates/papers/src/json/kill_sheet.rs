//! A kill sheet.

use super::{FORMAT, Units, depth, in_unit, print};
use crate::kill_sheet::{CAUTIONS, Leaf, remark};
use rigwright_margins::Place;
use rigwright_margins::kill_sheet::{Course, Held, KillSheet, Kinder, Length, Peak, Remark, Shares};
use rigwright_units::{Kind, System, unit};
use serde::Serialize;

/// A kill sheet with all that its text tells.
pub fn kill_sheet(leaf: &Leaf, sheet: &KillSheet) -> String {
    let units = leaf.units;
    let value = |value: f64, kind: Kind| Value::of(value, kind, units);
    let words = |remarks: &[Remark]| remarks.iter().map(|one| remark(one, units)).collect::<Vec<String>>();
    let mut cautions = words(&sheet.cautions);
    cautions.extend(CAUTIONS.map(str::to_owned));
    cautions.push(crate::sheet::CAUTIONS[0].to_owned());
    let strokes = |volume: f64| sheet.volumes.strokes(volume);
    let length = |length: &Length| LengthJson {
        what: length.what.clone(),
        top: depth(length.top, units),
        bottom: depth(length.bottom, units),
        volume: value(length.volume, Kind::Volume),
        strokes: length.strokes,
    };
    let lengths = std::iter::once(&sheet.volumes.surface).chain(&sheet.volumes.string);
    print(&Document {
        format: FORMAT,
        units: Units::of(units),
        well: &leaf.fit.well.name,
        rig: &leaf.fit.rig.name,
        as_of: leaf.as_of.to_string(),
        section: &leaf.fit.well.sections[sheet.order.section].name,
        hole_depth: depth(sheet.order.hole_depth, units),
        vertical_depth: depth(sheet.vertical_depth, units),
        constants: sheet.order.constants.name,
        stale: words(&sheet.stale),
        shoe: depth(sheet.shoe, units),
        mud_weight: value(sheet.mud_weight, Kind::Density),
        drill_pipe_pressure: value(sheet.order.readings.drill_pipe_pressure, Kind::Pressure),
        casing_pressure: value(sheet.order.readings.casing_pressure, Kind::Pressure),
        gain: value(sheet.order.readings.gain, Kind::Volume),
        formation_pressure: value(sheet.formation_pressure, Kind::Pressure),
        kill_weight: value(sheet.kill_weight, Kind::Density),
        kill_weight_unrounded: value(sheet.exact_weight, Kind::Density),
        rounding_overbalance: value(sheet.rounding_overbalance, Kind::Pressure),
        trip_weight: value(sheet.trip_weight, Kind::Density),
        slow_rate: sheet.slow.as_ref().map(|slow| SlowJson {
            pump_speed: value(slow.reading.pump_speed, Kind::StrokeRate),
            pressure: value(slow.reading.pressure, Kind::Pressure),
            pressure_with_this_mud: value(slow.pressure, Kind::Pressure),
            mud_weight: value(slow.reading.weight, Kind::Density),
            depth: depth(slow.reading.depth, units),
            date: slow.reading.date.map(|date| date.to_string()),
        }),
        choke_line: sheet.choke_line.map(|line| ChokeLineJson {
            length: value(line.length, Kind::Depth),
            measured: line.measured,
            loss: line.loss.map(|loss| value(loss, Kind::Pressure)),
            loss_with_kill_mud: line.with_kill_mud.map(|loss| value(loss, Kind::Pressure)),
            hold_on_rate: line.on_rate.map(|hold| value(hold, Kind::Pressure)),
            overbalance: line.overbalance.map(|over| value(over, Kind::Pressure)),
            both_lines: line.both.map(|both| BothLinesJson {
                share_in_choke_line: both.share,
                loss: value(both.loss, Kind::Pressure),
                loss_with_kill_mud: both.with_kill_mud.map(|loss| value(loss, Kind::Pressure)),
                hold_on_rate: value(both.on_rate, Kind::Pressure),
                overbalance: value(both.overbalance, Kind::Pressure),
                volume: value(both.volume, Kind::Volume),
                strokes: strokes(both.volume),
            }),
        }),
        riser: sheet.volumes.riser.as_ref().map(length),
        start_up: start_up(sheet, units),
        rates: rates(sheet, units),
        initial_circulating_pressure: sheet.schedule.as_ref().map(|schedule| value(schedule.initial_pressure, Kind::Pressure)),
        final_circulating_pressure: sheet.schedule.as_ref().map(|schedule| value(schedule.final_pressure, Kind::Pressure)),
        down: lengths.map(length).collect(),
        up: sheet.volumes.annulus.iter().map(length).collect(),
        strokes_to_bit: strokes(sheet.volumes.to_bit()),
        strokes_bit_to_shoe: strokes(sheet.volumes.bit_to_shoe()),
        strokes_bit_to_surface: strokes(sheet.volumes.bit_to_surface()),
        friction_shared_by: sheet.schedule.as_ref().map(|schedule| match schedule.shares {
            Shares::Model => "model",
            Shares::Depth => "depth",
        }),
        schedule: schedule(sheet, units),
        driller: sheet.driller.as_ref().map(|course| CourseJson::of(sheet, course, units)),
        wait_and_weight: sheet.weighted.as_ref().map(|course| CourseJson::of(sheet, course, units)),
        kinder_to_the_shoe: match sheet.kinder {
            Some(Kinder::WaitAndWeight { .. }) => Some("wait and weight"),
            Some(Kinder::Alike) => Some("neither"),
            None => None,
        },
        influx: InfluxJson {
            length: depth(sheet.influx.length, units),
            height: depth(sheet.influx.height, units),
            density: sheet.influx.density.map(|density| value(density, Kind::Density)),
            low: sheet.influx.interval.map(|[low, _]| value(low, Kind::Density)),
            high: sheet.influx.interval.map(|[_, high]| value(high, Kind::Density)),
            may_be: sheet.influx.kinds.iter().map(|kind| kind.word()).collect(),
        },
        limits: sheet.limits.iter().map(|held| LimitJson::of(held, units)).collect(),
        governing_changes: sheet.swap.map(|swap| SwapJson {
            strokes: strokes(swap.pumped),
            maasp: swap.maasp.map(|maasp| value(maasp, Kind::Pressure)),
            friction: swap.friction.map(|friction| value(friction, Kind::Pressure)),
            surface: swap.surface.map(|surface| value(surface, Kind::Pressure)),
        }),
        barite: value(sheet.stock.barite, Kind::Mass),
        barite_on_site: sheet.stock.barite_on_site.map(|mass| value(mass, Kind::Mass)),
        room: value(sheet.stock.room(), Kind::Volume),
        room_on_site: sheet.stock.room_on_site.map(|room| value(room, Kind::Volume)),
        time_to_mix: sheet.stock.mixing.map(|time| value(time, Kind::Time)),
        time_to_bit: sheet.stock.to_bit.map(|time| value(time, Kind::Time)),
        time_bottoms_up: sheet.stock.bottoms_up.map(|time| value(time, Kind::Time)),
        time_driller: sheet.stock.driller.map(|time| value(time, Kind::Time)),
        time_wait_and_weight: sheet.stock.weighted.map(|time| value(time, Kind::Time)),
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
    vertical_depth: f64,
    constants: &'static str,
    stale: Vec<String>,
    shoe: f64,
    mud_weight: Value,
    drill_pipe_pressure: Value,
    casing_pressure: Value,
    gain: Value,
    formation_pressure: Value,
    kill_weight: Value,
    kill_weight_unrounded: Value,
    rounding_overbalance: Value,
    trip_weight: Value,
    slow_rate: Option<SlowJson>,
    choke_line: Option<ChokeLineJson>,
    riser: Option<LengthJson>,
    start_up: Vec<StartJson>,
    rates: Vec<RateJson>,
    initial_circulating_pressure: Option<Value>,
    final_circulating_pressure: Option<Value>,
    down: Vec<LengthJson>,
    up: Vec<LengthJson>,
    strokes_to_bit: f64,
    strokes_bit_to_shoe: f64,
    strokes_bit_to_surface: f64,
    friction_shared_by: Option<&'static str>,
    schedule: Vec<StepJson>,
    driller: Option<CourseJson>,
    wait_and_weight: Option<CourseJson>,
    kinder_to_the_shoe: Option<&'static str>,
    influx: InfluxJson,
    limits: Vec<LimitJson>,
    governing_changes: Option<SwapJson>,
    barite: Value,
    barite_on_site: Option<Value>,
    room: Value,
    room_on_site: Option<Value>,
    time_to_mix: Option<Value>,
    time_to_bit: Option<Value>,
    time_bottoms_up: Option<Value>,
    time_driller: Option<Value>,
    time_wait_and_weight: Option<Value>,
    cautions: Vec<String>,
}

/// A figure with its unit.
#[derive(Serialize)]
pub(super) struct Value {
    value: f64,
    unit: &'static str,
}

impl Value {
    pub(super) fn of(value: f64, kind: Kind, units: System) -> Value {
        Value { value: in_unit(value, kind, units), unit: unit(kind, units).symbol }
    }
}

#[derive(Serialize)]
struct SlowJson {
    pump_speed: Value,
    pressure: Value,
    pressure_with_this_mud: Value,
    mud_weight: Value,
    depth: f64,
    date: Option<String>,
}

#[derive(Serialize)]
struct ChokeLineJson {
    length: Value,
    measured: bool,
    loss: Option<Value>,
    loss_with_kill_mud: Option<Value>,
    hold_on_rate: Option<Value>,
    overbalance: Option<Value>,
    both_lines: Option<BothLinesJson>,
}

#[derive(Serialize)]
struct BothLinesJson {
    share_in_choke_line: f64,
    loss: Value,
    loss_with_kill_mud: Option<Value>,
    hold_on_rate: Value,
    overbalance: Value,
    volume: Value,
    strokes: f64,
}

#[derive(Serialize)]
struct StartJson {
    pump_speed: Value,
    choke: Value,
    drill_pipe: Value,
}

fn start_up(sheet: &KillSheet, units: System) -> Vec<StartJson> {
    let pressure = |value: f64| Value::of(value, Kind::Pressure, units);
    let step = |step: &rigwright_margins::kill_sheet::StartStep| StartJson {
        pump_speed: Value::of(step.pump_speed, Kind::StrokeRate, units),
        choke: pressure(step.choke),
        drill_pipe: pressure(step.drill_pipe),
    };
    sheet.start_up.iter().map(step).collect()
}

#[derive(Serialize)]
struct RateJson {
    pump_speed: Value,
    read: bool,
    pump: Option<u32>,
    pump_output: Value,
    strokes_to_bit: f64,
    slow_rate: Value,
    initial: Value,
    r#final: Value,
    time: Value,
}

fn rates(sheet: &KillSheet, units: System) -> Vec<RateJson> {
    let value = |value: f64, kind: Kind| Value::of(value, kind, units);
    let rate = |rate: &rigwright_margins::kill_sheet::Rate| RateJson {
        pump_speed: value(rate.pump_speed, Kind::StrokeRate),
        read: rate.read,
        pump: rate.pump,
        pump_output: value(rate.pump_output, Kind::VolumePerStroke),
        strokes_to_bit: rate.to_bit,
        slow_rate: value(rate.slow_pressure, Kind::Pressure),
        initial: value(rate.initial_pressure, Kind::Pressure),
        r#final: value(rate.final_pressure, Kind::Pressure),
        time: value(rate.circulation, Kind::Time),
    };
    sheet.rates.iter().map(rate).collect()
}

#[derive(Serialize)]
struct SwapJson {
    strokes: f64,
    maasp: Option<Value>,
    friction: Option<Value>,
    surface: Option<Value>,
}

#[derive(Serialize)]
struct LengthJson {
    what: String,
    top: f64,
    bottom: f64,
    volume: Value,
    strokes: f64,
}

#[derive(Serialize)]
struct StepJson {
    strokes: f64,
    front: f64,
    front_vertical: f64,
    friction_share: f64,
    hold: Value,
    straight: Value,
    by_weight: Value,
}

fn schedule(sheet: &KillSheet, units: System) -> Vec<StepJson> {
    let steps = sheet.schedule.iter().flat_map(|schedule| &schedule.steps);
    let value = |value: f64| Value::of(value, Kind::Pressure, units);
    let step = steps.map(|step| StepJson {
        strokes: step.strokes,
        front: depth(step.depth, units),
        front_vertical: depth(step.vertical_depth, units),
        friction_share: step.friction_share,
        hold: value(step.pressure),
        straight: value(step.straight),
        by_weight: value(step.by_weight),
    });
    step.collect()
}

#[derive(Serialize)]
struct PeakJson {
    highest: Value,
    strokes: f64,
}

#[derive(Serialize)]
struct RowJson {
    what: &'static str,
    strokes: f64,
    gas_top: f64,
    gas_end: f64,
    gain: Value,
    choke: Value,
    shoe: Value,
    weakest: Option<Value>,
}

#[derive(Serialize)]
struct CourseJson {
    choke: PeakJson,
    shoe: PeakJson,
    gain: PeakJson,
    rows: Vec<RowJson>,
}

impl CourseJson {
    fn of(sheet: &KillSheet, course: &Course, units: System) -> CourseJson {
        let strokes = |volume: f64| sheet.volumes.strokes(volume);
        let pressure = |value: f64| Value::of(value, Kind::Pressure, units);
        let peak =
            |peak: &Peak, kind: Kind| PeakJson { highest: Value::of(peak.value, kind, units), strokes: strokes(peak.pumped) };
        let row = |row: &rigwright_margins::kill_sheet::Row| RowJson {
            what: row.what,
            strokes: strokes(row.instant.pumped),
            gas_top: depth(row.instant.gas_top, units),
            gas_end: depth(row.instant.gas_bottom, units),
            gain: Value::of(row.instant.gas_volume, Kind::Volume, units),
            choke: pressure(row.instant.choke_pressure),
            shoe: pressure(row.instant.weak_pressure),
            weakest: row.weakest.map(pressure),
        };
        CourseJson {
            choke: peak(&course.choke, Kind::Pressure),
            shoe: peak(&course.shoe, Kind::Pressure),
            gain: peak(&course.gain, Kind::Volume),
            rows: course.rows.iter().map(row).collect(),
        }
    }
}

#[derive(Serialize)]
struct InfluxJson {
    length: f64,
    height: f64,
    density: Option<Value>,
    low: Option<Value>,
    high: Option<Value>,
    may_be: Vec<&'static str>,
}

#[derive(Serialize)]
struct LimitJson {
    name: String,
    depth: Option<f64>,
    source: &'static str,
    bears: Option<Value>,
    now: Option<Value>,
    driller: Option<Value>,
    wait_and_weight: Option<Value>,
    left: Option<Value>,
}

impl LimitJson {
    fn of(held: &Held, units: System) -> LimitJson {
        let pressure = |value: Option<f64>| value.map(|value| Value::of(value, Kind::Pressure, units));
        LimitJson {
            name: held.name.clone(),
            depth: match held.place {
                Place::Surface => None,
                Place::Depth(at) => Some(depth(at, units)),
            },
            source: held.source,
            bears: pressure(held.capacity),
            now: pressure(held.shut_in),
            driller: pressure(held.driller),
            wait_and_weight: pressure(held.weighted),
            left: pressure(held.left()),
        }
    }
}
