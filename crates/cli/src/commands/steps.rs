//! `steps`: step tables ready to follow.

use super::load;
use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, SHORT, lookup, print};
use jiff::Timestamp;
use rigwright_margins::steps::{METHODS, Method, Where, method, procedure};
use rigwright_papers::json::{self, Fault};
use rigwright_papers::{methods, needs, steps, workings};
use rigwright_units::parse;
use rigwright_well::Fit;
use rigwright_wellfile::nearest;

pub(super) fn run(args: &args::Steps) -> Result<u8, Failure> {
    let Some(word) = &args.method else {
        if args.form.json {
            print::raw(json::methods().as_bytes())?;
        } else {
            print::text(&methods())?;
        }
        return Ok(HOLDS);
    };
    let method = find(word)?;
    if args.needs {
        print::text(&needs(method))?;
        return Ok(HOLDS);
    }
    let fit = load(&args.well, args.rig.as_deref())?.fit;
    let (place, inputs) = match (place(args, &fit), inputs(method, &args.inputs)) {
        (Ok(place), Ok(inputs)) => (place, inputs),
        (place, inputs) => {
            let faults = place.err().into_iter().flatten().chain(inputs.err().into_iter().flatten());
            return Err(Failure::Typed(faults.collect()));
        }
    };
    let found = procedure(&fit, method, place, &inputs).map_err(|refused| fault(refused.why, refused.help))?;
    let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
    let units = args.form.units;
    if args.form.json {
        print::raw(json::steps(&fit, &found, as_of, units).as_bytes())?;
    } else {
        print::text(&steps(&fit, &found, as_of, units))?;
        if args.working {
            print::text(&workings(&found.working, units, args.all))?;
        }
    }
    Ok(if found.short { SHORT } else { HOLDS })
}

fn find(word: &str) -> Result<&'static Method, Fault> {
    method(word).ok_or_else(|| {
        let all: Vec<String> = METHODS.iter().map(|method| format!("`{}`", method.slug)).collect();
        let help = match nearest(word, METHODS.iter().map(|method| method.slug)) {
            Some(near) => format!("did you mean `{near}`? the methods are {}", all.join(", ")),
            None => format!("the methods are {}", all.join(", ")),
        };
        fault(format!("there is no method `{word}`"), help)
    })
}

fn place(args: &args::Steps, fit: &Fit) -> Result<Where, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut keep = |result: Result<f64, Fault>| result.map_err(|fault| faults.push(fault)).ok();
    let hole_depth = args.hole.as_ref().and_then(|text| keep(lookup::depth("hole", text, fit)));
    let bit_depth = args.bit.as_ref().and_then(|text| keep(lookup::depth("bit", text, fit)));
    let section = match args.section.as_ref().map(|name| lookup::section(fit, name)).transpose() {
        Ok(section) => section,
        Err(fault) => {
            faults.push(fault);
            None
        }
    };
    let last = fit.well.sections.len().saturating_sub(1);
    let this = &fit.well.sections[section.unwrap_or(last)];
    if hole_depth.is_some_and(|depth| depth <= this.top || depth > this.bottom + 0.5) {
        let help = "choose the section with --section, or leave --hole out for its end";
        faults.push(fault(format!("--hole: the section `{}` is not drilled at that depth", this.name), help));
    }
    if bit_depth.is_some_and(|depth| depth > hole_depth.unwrap_or(this.bottom) + 0.5) {
        faults.push(fault("--bit: the bit is below the bottom of the hole", "depths are measured along the hole"));
    }
    if faults.is_empty() { Ok(Where { section, hole_depth, bit_depth }) } else { Err(faults) }
}

/// What was typed, by the method's own keys. [SI]
fn inputs(method: &Method, typed: &[String]) -> Result<Vec<(&'static str, f64)>, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut inputs: Vec<(&'static str, f64)> = Vec::new();
    for word in typed {
        let Some((key, text)) = word.split_once('=') else {
            faults.push(fault(format!("`{word}` is no input"), "write key=\"value unit\", such as sicp=\"600 psi\""));
            continue;
        };
        let key = key.trim().replace('-', "_");
        let Some(input) = method.inputs.iter().find(|input| input.key == key) else {
            let keys: Vec<String> = method.inputs.iter().map(|input| format!("`{}`", input.key)).collect();
            let takes = if keys.is_empty() { "it takes none".to_owned() } else { format!("it takes {}", keys.join(", ")) };
            let help = match nearest(&key, method.inputs.iter().map(|input| input.key)) {
                Some(near) => format!("did you mean `{near}`? {takes}"),
                None => takes,
            };
            faults.push(fault(format!("{} has no input `{key}`", method.slug), help));
            continue;
        };
        if inputs.iter().any(|(known, _)| *known == input.key) {
            faults.push(fault(format!("`{key}` is given twice"), "leave one of them"));
            continue;
        }
        match parse(text, input.kind) {
            Ok(value) => inputs.push((input.key, value)),
            Err(error) => faults.push(fault(format!("`{key}`: {error}"), error.help())),
        }
    }
    if faults.is_empty() { Ok(inputs) } else { Err(faults) }
}
