//! `propose`: which knobs to turn, job by job.

use super::load;
use crate::args;
use crate::failure::Failure;
use crate::{HOLDS, SHORT, print};
use rigwright_margins::Verdict;
use rigwright_margins::propose::propose;
use rigwright_papers::{Proposed, json, proposal};

pub(super) fn run(args: &args::Propose) -> Result<u8, Failure> {
    let fit = load(&args.well, args.rig.as_deref())?.fit;
    let found = propose(&fit);
    let proposed = Proposed { file: &args.well, fit: &fit, proposal: &found, units: args.form.units };
    if args.form.json {
        print::raw(json::proposal(&proposed).as_bytes())?;
    } else {
        print::text(&proposal(&proposed))?;
    }
    Ok(if found.worst.1 == Verdict::Short { SHORT } else { HOLDS })
}
