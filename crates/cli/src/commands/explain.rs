//! `explain`: the working of one figure.

use super::{load, write_file};
use crate::args;
use crate::failure::{Failure, fault};
use crate::lookup;
use crate::{HOLDS, print};
use rigwright_margins::{Address, Explained, SYSTEMS, explain};
use rigwright_papers::json::Fault;
use rigwright_papers::paper::fingerprint;
use rigwright_papers::text::Text;
use rigwright_papers::{explained, json};
use rigwright_press::working_book;
use rigwright_well::{Fit, Operation};
use rigwright_wellfile::Loaded;

/// Depths closer than this are one. [m]
const SAME_DEPTH: f64 = 1e-2;

pub(super) fn run(args: &args::Explain) -> Result<u8, Failure> {
    let Loaded { fit, sources, .. } = load(&args.well, args.rig.as_deref())?;
    let Some(slug) = &args.question else {
        if args.form.json {
            print::raw(json::questions().as_bytes())?;
        } else {
            print::text(&list())?;
        }
        return Ok(HOLDS);
    };
    let question = lookup::question(slug);
    let address = address(args, &fit);
    let (question, address) = match (question, address) {
        (Ok(question), Ok(address)) => (question, address),
        (question, address) => {
            let typed = question.err().into_iter().chain(address.err().into_iter().flatten());
            return Err(Failure::Typed(typed.collect()));
        }
    };
    let Some(found) = explain(&fit, question, &address) else {
        return Err(nothing_there(&address, &fit).into());
    };
    if let Some(fault) = elsewhere(&found, &address) {
        return Err(fault.into());
    }
    if let Some(file) = &args.xlsx {
        let book = working_book(&fit, &found, &fingerprint(&sources), args.form.units);
        let book = book.map_err(|error| fault(error.to_string(), "without --xlsx the working is printed here"))?;
        write_file(file, &book)?;
    } else if args.form.json {
        print::raw(json::explained(&fit, &found, args.form.units).as_bytes())?;
    } else {
        print::text(&explained(&fit, &found, args.form.units, args.all))?;
    }
    Ok(HOLDS)
}

/// Where to look, or everything that is wrong with it.
fn address(args: &args::Explain, fit: &Fit) -> Result<Address, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut keep = |result: Result<f64, Fault>| result.map_err(|fault| faults.push(fault)).ok();
    let depth = |flag: &str, text: &Option<String>| text.as_ref().map(|text| lookup::depth(flag, text, fit));
    let hole_depth = depth("hole", &args.hole).and_then(&mut keep);
    let bit_depth = depth("bit", &args.bit).and_then(&mut keep);
    let at = depth("at", &args.at).and_then(&mut keep);
    let section = args.section.as_ref().map(|name| lookup::section(fit, name)).transpose();
    let operation = args.during.as_ref().map(|word| lookup::operation(word)).transpose();
    match (section, operation) {
        (Ok(section), Ok(operation)) if faults.is_empty() => Ok(Address { section, hole_depth, bit_depth, operation, at }),
        (section, operation) => {
            faults.extend(section.err().into_iter().chain(operation.err()));
            Err(faults)
        }
    }
}

/// A question that is not asked along the hole has no answer at a depth of one's choice.
fn elsewhere(found: &Explained, address: &Address) -> Option<Fault> {
    let (wanted, judged) = (address.at?, found.asked.answer.judged()?);
    let met = judged.place.depth().is_some_and(|place| (place - wanted).abs() < SAME_DEPTH);
    let slug = found.asked.question.slug;
    (!met)
        .then(|| fault(format!("`{slug}` is not asked along the hole"), "leave out --at; --hole and --bit choose the situation"))
}

fn nothing_there(address: &Address, fit: &Fit) -> Fault {
    let section = address.section.and_then(|index| fit.well.sections.get(index));
    let section = section.map_or_else(String::new, |section| format!(" in `{}`", section.name));
    let operation = address.operation.map_or("such work", Operation::name);
    fault(
        format!("{} has no {operation}{section} for this question", fit.well.name),
        "leave out --during, or choose another operation or section",
    )
}

fn list() -> Text {
    let mut text = Text::default();
    for system in SYSTEMS {
        text.heading(system.name);
        for question in system.questions() {
            text.hanging(30, question.slug.into(), question.asks);
        }
        text.blank();
    }
    text.plain("`rigwright explain WELL SLUG` opens one.");
    text
}
