//! Examples of plans of a hole.

use rigwright_physics::Off;
use rigwright_physics::trajectory::Path;
use rigwright_physics::trajectory::plan::{Plan, SecondBend, Target};
use rigwright_units::Kind;

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[Procedure { name: "plan", system: "trajectory", run: plan }];

/// A plan to a target, and where the path through its stations really ends.
fn plan(given: &Given) -> Outcome {
    let target = Target {
        kick_off: given.quantity("kick_off", Kind::Depth)?,
        vertical_depth: given.quantity("vertical_depth", Kind::Depth)?,
        departure: given.quantity("departure", Kind::Depth)?,
        azimuth: given.quantity_or("azimuth", Kind::Angle, 0.0)?,
    };
    let rate = given.quantity("build_rate", Kind::Curvature)?;
    let made = if given.has("second") {
        let drops = match given.text("second")? {
            "drop" => true,
            "build" => false,
            other => return Err(format!("a second bend does not `{other}`")),
        };
        let second = SecondBend {
            rate: given.quantity("second_rate", Kind::Curvature)?,
            inclination: given.quantity("end_inclination", Kind::Angle)?,
            drops,
        };
        Plan::with_second_bend(&target, rate, &second, &mut Off)
    } else {
        Plan::build_and_hold(&target, rate, &mut Off)
    };
    let plan = made.map_err(|error| error.to_string())?;
    let path = Path::from_stations(&plan.stations).map_err(|error| error.to_string())?;
    let end = path.at(plan.measured_depth());
    Ok(vec![
        output("hold_inclination", Kind::Angle, plan.hold_inclination),
        output("hold_length", Kind::Depth, plan.hold_length),
        output("measured_depth", Kind::Depth, plan.measured_depth()),
        output("reached_vertical_depth", Kind::Depth, end.vertical_depth),
        output("reached_departure", Kind::Depth, end.north.hypot(end.east)),
    ])
}
