//! Examples of line work by operation, of the drum, and of trips.

use rigwright_physics::hoisting::{
    CutGoal, Drum, DrumDrive, Hoist, LineJob, LineOnDrum, ServiceGoal, TripStand, TripWay, TrippedString,
    cut_plan as plan_of_cut, layer_courses, line_work as work_of,
};
use rigwright_physics::{Formula, Off};
use rigwright_units::Kind;

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "line-work", system: "hoisting", run: line_work },
    Procedure { name: "cut-plan", system: "hoisting", run: cut_plan },
    Procedure { name: "last-drum-layer", system: "hoisting", run: last_drum_layer },
    Procedure { name: "trip-time", system: "hoisting", run: trip_time },
];

/// Line work of one operation.
fn line_work(given: &Given) -> Outcome {
    let string = TrippedString {
        stand: given.quantity("stand", Kind::Depth)?,
        buoyed_weight: given.quantity("buoyed_weight", Kind::ForcePerLength)?,
        travelling_weight: given.quantity("travelling_weight", Kind::Force)?,
        excess_weight: given.quantity("excess_weight", Kind::Force)?,
    };
    let to = given.quantity("to", Kind::Depth)?;
    let job = match given.text("job")? {
        "round trip" => LineJob::RoundTrip(to),
        "casing" => LineJob::Casing(to),
        "drilling" => {
            LineJob::Between { from: given.quantity("from", Kind::Depth)?, to, passes: given.quantity("passes", Kind::Ratio)? }
        }
        other => return Err(format!("`{other}` is no operation that works the line")),
    };
    Ok(vec![output("line_work", Kind::LineWork, work_of(job, &string, &mut Off))])
}

/// The cut that is due after some line work.
fn cut_plan(given: &Given) -> Outcome {
    let line_diameter = given.quantity("line_diameter", Kind::Diameter)?;
    let service_factor = given.quantity("service_factor", Kind::Ratio)?;
    let goal = ServiceGoal { service_factor, goal: CutGoal { line_diameter }.value() }.value();
    let line = LineOnDrum { line_diameter, bare_diameter: given.quantity("bare_diameter", Kind::Diameter)?, goal };
    let plan = plan_of_cut(&line, given.quantity("line_work", Kind::LineWork)?, &mut Off);
    Ok(vec![
        output("laps", Kind::Count, plan.laps),
        output("length", Kind::Depth, plan.length),
        output("work", Kind::LineWork, plan.work),
    ])
}

/// The layer of the drum with the block up.
fn last_drum_layer(given: &Given) -> Outcome {
    let drum = Drum {
        bare_diameter: given.quantity("bare_diameter", Kind::Diameter)?,
        line_diameter: given.quantity("line_diameter", Kind::Diameter)?,
        wraps: given.quantity("wraps", Kind::Ratio)?,
        dead_wraps: given.quantity("dead_wraps", Kind::Ratio)?,
    };
    let drive = DrumDrive {
        torque: given.quantity("torque", Kind::Torque)?,
        drum_speed: given.quantity("drum_speed", Kind::RotarySpeed)?,
        lines: given.quantity("lines", Kind::Count)?,
    };
    let courses = layer_courses(&drum, &drive, given.quantity("block_way", Kind::Depth)?, &mut Off);
    let last = courses.last().ok_or("no layer")?;
    Ok(vec![
        output("layer", Kind::Count, f64::from(last.layer.layer)),
        output("line_pull", Kind::Force, last.line_pull),
        output("block_speed", Kind::Speed, last.block_speed),
    ])
}

/// A trip of like stands of one pipe.
fn trip_time(given: &Given) -> Outcome {
    let hoist = Hoist {
        power: given.quantity("power", Kind::Power)?,
        tackle_efficiency: given.quantity("tackle_efficiency", Kind::Fraction)?,
        drum_efficiency: given.quantity("drum_efficiency", Kind::Fraction)?,
        line_speed: given.quantity("line_speed", Kind::Speed)?,
        lines: given.quantity("lines", Kind::Count)?,
        acceleration: given.quantity("acceleration", Kind::Acceleration)?,
        deceleration: given.quantity("deceleration", Kind::Acceleration)?,
        brake_power: None,
        travelling_weight: given.quantity("travelling_weight", Kind::Force)?,
        connection: given.quantity("connection", Kind::Time)?,
    };
    let way = match given.text("way")? {
        "out" => TripWay::Out,
        "in" => TripWay::In,
        other => return Err(format!("a trip does not go `{other}`")),
    };
    let (length, count) = (given.quantity("stand", Kind::Depth)?, given.quantity("stands", Kind::Count)? as u32);
    let (least, step) = (given.quantity("least_load", Kind::Force)?, given.quantity("load_per_stand", Kind::Force)?);
    let hole_speed = given.quantity("hole_speed", Kind::Speed)?;
    let stand = |below: u32| TripStand {
        bit_depth: length * f64::from(below),
        length,
        string_load: least + step * f64::from(below),
        hole_speed,
    };
    let mut stands: Vec<TripStand> = (1..=count).map(stand).collect();
    if way == TripWay::Out {
        stands.reverse();
    }
    let time = hoist.trip(&stands, way, &mut Off);
    Ok(vec![output("loaded", Kind::Time, time.loaded), output("total", Kind::Time, time.total())])
}
