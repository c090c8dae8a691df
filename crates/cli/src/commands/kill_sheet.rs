//! `kill-sheet`: a kill sheet from shut-in readings.

use super::load;
use super::papers::{self, with_desk};
use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, SHORT, lookup, print};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use rigwright_margins::kill_sheet::{Constants, Float, KillSheet, Order, Readings, kill_sheet_with_pump};
use rigwright_papers::json::{self, Fault};
use rigwright_papers::{Leaf, paper, remark, weight_step, workings};
use rigwright_physics::{Off, Working};
use rigwright_press::desk_book;
use rigwright_units::{Kind, Spread, Stated, parse, parse_stated};
use rigwright_well::Fit;

pub(super) fn run(args: &args::KillSheet) -> Result<u8, Failure> {
    let loaded = load(&args.well, args.rig.as_deref())?;
    let fit = &loaded.fit;
    let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
    let order = order(args, fit, as_of).map_err(Failure::Typed)?;
    let units = args.form.units;
    let mut working = Working::default();
    let worked = args.working || args.sheet.xlsx.is_some();
    let made = if worked {
        kill_sheet_with_pump(fit, &order, args.pump, &mut working)
    } else {
        kill_sheet_with_pump(fit, &order, args.pump, &mut Off)
    };
    let sheet = made.map_err(|refused| {
        let help = "no kill sheet is made from these readings";
        Failure::Typed(refused.iter().map(|why| fault(remark(why, units), help)).collect())
    })?;
    let leaf = Leaf { fit, as_of, units };
    let written = with_desk(
        &loaded,
        papers::Wishes { file: &args.well, rig: args.rig.as_deref(), as_of, units, beside: None, section: None },
        |desk| papers::write(&args.sheet, &paper::kill_sheet(desk, &sheet), || desk_book(desk, "kill sheet", &working)),
    )?;
    if written {
        return Ok(code(&sheet));
    }
    if args.form.json {
        print::raw(json::kill_sheet(&leaf, &sheet).as_bytes())?;
    } else {
        print::text(&rigwright_papers::kill_sheet(&leaf, &sheet))?;
        if args.working {
            print::text(&workings(&working, units, args.all))?;
        }
    }
    Ok(code(&sheet))
}

/// Short when a limit that somebody gave is passed.
fn code(sheet: &KillSheet) -> u8 {
    let passed = sheet.limits.iter().filter_map(|held| held.left()).any(|left| left < 0.0);
    if passed { SHORT } else { HOLDS }
}

/// What was typed, or everything that is wrong with it.
fn order(args: &args::KillSheet, fit: &Fit, as_of: Timestamp) -> Result<Order, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut value = |flag: &str, text: &str, kind: Kind| {
        let read = parse(text, kind).map_err(|error| fault(format!("--{flag}: {error}"), error.help()));
        let read = read.and_then(|value| {
            if value >= 0.0 {
                Ok(value)
            } else {
                Err(fault(format!("--{flag}: `{text}` is below nought"), "gauges read from nought up"))
            }
        });
        read.map_err(|fault| faults.push(fault)).unwrap_or_default()
    };
    let drill_pipe_pressure = value("sidpp", &args.sidpp, Kind::Pressure);
    let casing_pressure = value("sicp", &args.sicp, Kind::Pressure);
    let pump_speed = args.rate.as_ref().map(|rate| value("rate", rate, Kind::StrokeRate));
    let gain = parse_stated(&args.gain, Kind::Volume).unwrap_or_else(|error| {
        faults.push(fault(format!("--gain: {error}"), error.help()));
        Stated::exact(0.0)
    });
    if gain.value < 0.0 {
        faults.push(fault(format!("--gain: `{}` is below nought", args.gain), "a gain is what the pits rose by"));
    }
    let (section, hole_depth) = lookup::place(args.section.as_deref(), args.hole.as_deref(), fit, &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let readings = Readings {
        drill_pipe_pressure,
        casing_pressure,
        gain: gain.value,
        gain_error: match gain.spread {
            Spread::Exact => None,
            Spread::Normal { standard_deviation } => Some(2.0 * standard_deviation),
            Spread::Uniform { low, high } => Some(0.5 * (high - low)),
        },
        float: match args.float {
            None => Float::Unsaid,
            Some(args::FloatWord::Bumped) => Float::Bumped,
            Some(args::FloatWord::None) => Float::None,
        },
    };
    Ok(Order {
        section,
        hole_depth,
        readings,
        constants: if args.rounded { Constants::TRADE } else { Constants::EXACT },
        weight_step: weight_step(args.form.units),
        pump_speed,
        as_of: Some(TimeZone::UTC.to_datetime(as_of).date()),
    })
}
