//! `leak-off`: a shoe test from its record, here or as a report.

use super::load;
use super::papers::{self, with_desk};
use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, lookup, print};
use jiff::Timestamp;
use rigwright_margins::steps::{PumpIn, shoe_tested};
use rigwright_papers::paper::{Record, fingerprint_of, leak_off_report};
use rigwright_papers::{json, steps, workings};
use rigwright_press::desk_book;
use rigwright_units::{Kind, parse};
use rigwright_wellfile::pump_in;

pub(super) fn run(args: &args::LeakOff) -> Result<u8, Failure> {
    let loaded = load(&args.well, args.rig.as_deref())?;
    let fit = &loaded.fit;
    let mut faults = Vec::new();
    let text = std::fs::read_to_string(&args.record)
        .map_err(|error| fault(format!("`{}` cannot be read: {error}", args.record), "name the CSV file of the shoe test"))?;
    let record = pump_in(&text).unwrap_or_else(|wrong| {
        faults
            .extend(wrong.into_iter().map(|what| fault(format!("{}: {what}", args.record), "volume pumped in all, row by row")));
        Vec::new()
    });
    // The last shoe that is followed by open hole, where none is chosen.
    let last = fit.well.sections.len().saturating_sub(2);
    let section = args.section.as_ref().map_or(Ok(last), |name| lookup::section(fit, name));
    let weight = args
        .weight
        .as_ref()
        .map(|text| parse(text, Kind::Density).map_err(|error| fault(format!("--weight: {error}"), error.help())));
    let (section, weight) = match (section, weight.transpose()) {
        (Ok(section), Ok(weight)) if faults.is_empty() => (section, weight),
        (section, weight) => {
            faults.extend(section.err().into_iter().chain(weight.err()));
            return Err(Failure::Typed(faults));
        }
    };
    let record: Vec<PumpIn> = record.into_iter().map(|[volume, pressure]| PumpIn { volume, pressure }).collect();
    let tested = shoe_tested(fit, section, &record, weight).map_err(|refused| fault(refused.why, refused.help))?;
    let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
    let units = args.form.units;
    if args.sheet.pdf.is_some() || args.sheet.xlsx.is_some() {
        let wishes = papers::Wishes { file: &args.well, rig: args.rig.as_deref(), as_of, units, beside: None, section: None };
        with_desk(&loaded, wishes, |desk| {
            let paper = leak_off_report(desk, &tested, &Record { file: &args.record, print: &fingerprint_of(&text) });
            papers::write(&args.sheet, &paper, || desk_book(desk, "leak-off report", &tested.procedure.working))
        })?;
        return Ok(HOLDS);
    }
    let found = &tested.procedure;
    if args.form.json {
        print::raw(json::steps(fit, found, as_of, units).as_bytes())?;
    } else {
        print::text(&steps(fit, found, as_of, units))?;
        if args.working {
            print::text(&workings(&found.working, units, false))?;
        }
    }
    Ok(HOLDS)
}
