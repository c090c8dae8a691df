//! `figure`: a figure of a well as SVG.

use super::{load, write_file};
use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, lookup, print};
use rigwright_margins::{Basis, window};
use rigwright_papers::figure::{self, svg};
use rigwright_wellfile::nearest;

/// The figures that can be drawn.
const FIGURES: [&str; 3] = ["window", "hook-load", "days"];

pub(super) fn run(args: &args::Figure) -> Result<u8, Failure> {
    let fit = load(&args.well, args.rig.as_deref())?.fit;
    let mut faults = Vec::new();
    if !FIGURES.contains(&args.figure.as_str()) {
        let help = match nearest(&args.figure, FIGURES) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("the figures are {}", FIGURES.join(", ")),
        };
        faults.push(fault(format!("there is no figure `{}`", args.figure), help));
    }
    let sections = match args.section.as_ref().map(|name| lookup::section(&fit, name)).transpose() {
        Ok(Some(section)) => vec![section],
        Ok(None) => (0..fit.well.sections.len()).collect(),
        Err(fault) => {
            faults.push(fault);
            Vec::new()
        }
    };
    if !faults.is_empty() {
        return Err(Failure::Typed(faults));
    }
    let basis = Basis::new(&fit);
    let drawn = match args.figure.as_str() {
        // Of one string; without a section that of the last.
        "hook-load" => sections.last().and_then(|section| figure::hook_load(&basis, *section, args.units)),
        "days" => Some(figure::days(&fit, basis.programme(), args.units)),
        _ => {
            let rows: Vec<_> = sections.into_iter().map(|section| (section, window(&fit, section))).collect();
            Some(figure::window(&fit, &rows, args.units))
        }
    };
    let Some(drawn) = drawn.as_ref().map(svg) else {
        return Err(fault("the well has no section to draw".to_owned(), "give it a `[[section]]`").into());
    };
    match args.output.as_deref() {
        None | Some("-") => print::raw(drawn.as_bytes())?,
        Some(file) => write_file(file, drawn.as_bytes())?,
    }
    Ok(HOLDS)
}
