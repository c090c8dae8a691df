//! `due`: tests and drills that fall due.

use super::load;
use crate::args;
use crate::failure::Failure;
use crate::{HOLDS, SHORT, UNKNOWN, print};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use rigwright_margins::due::{Standing, due};
use rigwright_papers::json;

pub(super) fn run(args: &args::Due) -> Result<u8, Failure> {
    let fit = load(&args.well, args.rig.as_deref())?.fit;
    let day = TimeZone::UTC.to_datetime(args.moment.as_of.unwrap_or_else(Timestamp::now)).date();
    let list = due(&fit, day);
    if args.json {
        print::raw(json::due(&fit, &list, day).as_bytes())?;
    } else {
        print::text(&rigwright_papers::due(&fit, &list, day))?;
    }
    let any = |wanted: fn(Standing) -> bool| list.due.iter().any(|due| wanted(due.standing));
    Ok(if any(|standing| matches!(standing, Standing::Overdue(_))) {
        SHORT
    } else if list.jurisdiction.is_none() || any(|standing| !matches!(standing, Standing::InTime(_))) {
        UNKNOWN
    } else {
        HOLDS
    })
}
