//! `limits-card`: what the well bears, shut in and on the move.

use super::load;
use crate::args;
use crate::failure::Failure;
use crate::{HOLDS, SHORT, lookup, print};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use rigwright_margins::kill_sheet::Constants;
use rigwright_margins::limits_card::{LimitsCard, Order, limits_card_by};
use rigwright_papers::{Leaf, json};
use rigwright_physics::Off;

pub(super) fn run(args: &args::LimitsCard) -> Result<u8, Failure> {
    let fit = load(&args.well, args.rig.as_deref())?.fit;
    let as_of = args.moment.as_of.unwrap_or_else(Timestamp::now);
    let mut faults = Vec::new();
    let (section, hole_depth) = lookup::place(args.section.as_deref(), args.hole.as_deref(), &fit, &mut faults);
    if !faults.is_empty() {
        return Err(Failure::Typed(faults));
    }
    let day = Some(TimeZone::UTC.to_datetime(as_of).date());
    let orders: Vec<Order> = match args.section {
        Some(_) => vec![Order { section, hole_depth, as_of: day }],
        None => {
            let end = |(section, this): (usize, &rigwright_well::Section)| Order { section, hole_depth: this.bottom, as_of: day };
            fit.well.sections.iter().enumerate().map(end).collect()
        }
    };
    let constants = if args.rounded { Constants::TRADE } else { Constants::EXACT };
    let cards: Vec<LimitsCard> = orders.iter().map(|order| limits_card_by(&fit, order, constants, &mut Off)).collect();
    let leaf = Leaf { fit: &fit, as_of, units: args.form.units };
    if args.form.json {
        print::raw(json::limits_card(&leaf, &cards).as_bytes())?;
    } else {
        print::text(&rigwright_papers::limits_card(&leaf, &cards))?;
    }
    // Mud alone above what something bears.
    let passed = |card: &LimitsCard| card.bounds.iter().any(|bound| bound.still.is_some_and(|still| still < 0.0));
    Ok(if cards.iter().any(passed) { SHORT } else { HOLDS })
}
