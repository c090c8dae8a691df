//! `trip-sheet`: what each stand should take or give, here, as PDF or as a workbook.

use super::load;
use super::papers::{self, with_desk};
use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, SHORT, lookup, print};
use jiff::Timestamp;
use rigwright_margins::kill_sheet::Constants;
use rigwright_margins::trip_sheet::{Order, Run, TripSheet, trip_sheet_by};
use rigwright_papers::json::{self, Fault};
use rigwright_papers::paper::{Desk, trip_paper};
use rigwright_papers::{Leaf, remark, workings};
use rigwright_physics::{Off, Working};
use rigwright_press::trip_book;
use rigwright_well::Fit;

pub(super) fn run(args: &args::TripSheet) -> Result<u8, Failure> {
    let loaded = load(&args.well, args.rig.as_deref())?;
    let fit = &loaded.fit;
    let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
    let order = order(args, fit).map_err(Failure::Typed)?;
    let units = args.form.units;
    let mut working = Working::default();
    let constants = if args.rounded { Constants::TRADE } else { Constants::EXACT };
    let made = if args.working {
        trip_sheet_by(fit, &order, constants, &mut working)
    } else {
        trip_sheet_by(fit, &order, constants, &mut Off)
    };
    let sheet = made.map_err(|refused| {
        let help = "choose another section or way";
        Failure::Typed(refused.iter().map(|why| fault(remark(why, units), help)).collect())
    })?;
    if args.sheet.is_wished() {
        let section = Some(order.section);
        let wishes = papers::Wishes { file: &args.well, rig: args.rig.as_deref(), as_of, units, beside: None, section: None };
        with_desk(&loaded, wishes, |desk| {
            let desk = Desk { section, ..*desk };
            papers::write(&args.sheet, &trip_paper(&desk, &sheet), || trip_book(&desk, &sheet))
        })?;
        return Ok(code(&sheet));
    }
    let leaf = Leaf { fit, as_of, units };
    if args.form.json {
        print::raw(json::trip_sheet(&leaf, &sheet).as_bytes())?;
    } else {
        print::text(&rigwright_papers::trip_sheet(&leaf, &sheet))?;
        if args.working {
            print::text(&workings(&working, units, args.all))?;
        }
    }
    Ok(code(&sheet))
}

/// Short when the planned speed leaves less than the wanted margin.
fn code(sheet: &TripSheet) -> u8 {
    let left = sheet.tightest.as_ref().and_then(|row| row.moved).map(|moved| moved.left);
    if left.is_some_and(|left| left < 0.0) { SHORT } else { HOLDS }
}

/// What was asked for, or everything that is wrong with it.
fn order(args: &args::TripSheet, fit: &Fit) -> Result<Order, Vec<Fault>> {
    let mut faults = Vec::new();
    let (section, hole_depth) = lookup::place(args.section.as_deref(), args.hole.as_deref(), fit, &mut faults);
    let this = &fit.well.sections[section];
    let casing = this.casing.as_ref().map(|casing| casing.shoe);
    let end = match args.way {
        args::Way::Casing => casing.unwrap_or(hole_depth),
        args::Way::Out | args::Way::In => hole_depth,
    };
    let bit_depth = match args.bit.as_ref().map(|text| lookup::depth("bit", text, fit)).transpose() {
        Ok(None) => end,
        Ok(Some(depth)) if depth > 0.0 && depth <= end + 0.5 => depth.min(end),
        Ok(Some(_)) => {
            faults.push(fault("--bit: not in the hole", "from surface to the end of the hole, or of the casing"));
            end
        }
        Err(fault) => {
            faults.push(fault);
            end
        }
    };
    if args.pulled.is_some() && args.way != args::Way::Out {
        faults.push(fault("--pulled: only pipe on the way out is pulled", "leave it out, or choose --way out"));
    }
    if args.float && args.way == args::Way::Out {
        faults.push(fault("--float: a float makes no difference on the way out", "say --pulled wet or --pulled dry"));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let wet = args.pulled.map_or(this.tripping.slug.is_none(), |pulled| pulled == args::Pulled::Wet);
    let run = match args.way {
        args::Way::Out => Run::Out { wet },
        args::Way::In => Run::In { float: args.float },
        args::Way::Casing => Run::Casing { float: args.float },
    };
    Ok(Order { section, hole_depth, bit_depth, run })
}
