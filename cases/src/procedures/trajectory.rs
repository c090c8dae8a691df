//! Examples of hole paths, and of tubes by themselves.

use rigwright_physics::trajectory::{DoglegAngle, Path, RatioFactor};
use rigwright_physics::tubular::{
    BurstStrength, MakeUpTorque, PipeBody, SectionModulus, ShoulderRule, SteelArea, TensionStrength, ToolJoint, TorsionStrength,
    WallThickness, WornDiameter, bending_strength_ratio, thread,
};
use rigwright_physics::{Formula, Off};
use rigwright_units::Kind;

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "survey-path", system: "trajectory", run: survey_path },
    Procedure { name: "pipe-strength", system: "tubular", run: pipe_strength },
    Procedure { name: "collapse-under-tension", system: "tubular", run: collapse_under_tension },
    Procedure { name: "tool-joint-strength", system: "tubular", run: tool_joint_strength },
    Procedure { name: "collar-connection", system: "tubular", run: collar_connection },
];

/// The path of a table of stations.
pub(super) fn path(given: &Given) -> Result<Path, String> {
    let mut stations = Vec::new();
    for row in given.rows("stations")? {
        let depth = row.quantity("measured_depth", Kind::Depth)?;
        let (inclination, azimuth) = (row.quantity("inclination", Kind::Angle)?, row.quantity("azimuth", Kind::Angle)?);
        stations.push((depth, inclination, azimuth));
    }
    Path::from_stations(&stations).map_err(|error| error.to_string())
}

/// From the first listed station, whose place is given, to the last.
fn survey_path(given: &Given) -> Outcome {
    let path = path(given)?;
    let rows = given.rows("stations")?.len();
    let points = path.stations();
    let [.., above, last] = points else { return Err("two stations at least".into()) };
    let first = &points[points.len() - rows];
    let start = |key: &str| given.quantity_or(key, Kind::Depth, 0.0);
    let dogleg = DoglegAngle {
        upper_inclination: above.inclination,
        upper_azimuth: above.azimuth,
        lower_inclination: last.inclination,
        lower_azimuth: last.azimuth,
    }
    .value();
    Ok(vec![
        output("north", Kind::Depth, start("start_north")? + last.north - first.north),
        output("east", Kind::Depth, start("start_east")? + last.east - first.east),
        output("vertical_depth", Kind::Depth, start("start_vertical_depth")? + last.vertical_depth - first.vertical_depth),
        output("dogleg", Kind::Angle, dogleg),
        output("ratio_factor", Kind::Ratio, RatioFactor { dogleg }.value()),
        output("dogleg_severity", Kind::Curvature, path.dogleg_severity_at(0.5 * (above.depth + last.depth))),
    ])
}

/// Strengths of a pipe body, new or worn to a share of its wall.
fn pipe_strength(given: &Given) -> Outcome {
    let nominal = given.quantity("outer_diameter", Kind::Diameter)?;
    let inner_diameter = given.quantity("inner_diameter", Kind::Diameter)?;
    let yield_strength = given.quantity("yield_strength", Kind::Stress)?;
    let wall_left = given.quantity_or("wall_left", Kind::Fraction, 1.0)?;
    let wall_share = given.quantity_or("wall_share", Kind::Fraction, 1.0)?;
    let outer_diameter = WornDiameter { outer_diameter: nominal, inner_diameter, wall_left }.value();
    let wall = WallThickness { outer_diameter, inner_diameter }.value();
    let steel_area = SteelArea { outer_diameter, inner_diameter }.value();
    let section_modulus = SectionModulus { outer_diameter, inner_diameter }.value();
    let body = PipeBody { yield_strength, outer_diameter, wall };
    let torsion = TorsionStrength { yield_strength, outer_diameter, inner_diameter }.value();
    let burst = BurstStrength { yield_strength, wall, outer_diameter: nominal, wall_share }.value();
    Ok(vec![
        output("worn_diameter", Kind::Diameter, outer_diameter),
        output("wall", Kind::Diameter, wall),
        output("steel_area", Kind::Area, steel_area),
        output("section_modulus", Kind::SectionModulus, section_modulus),
        output("polar_modulus", Kind::SectionModulus, 2.0 * section_modulus),
        output("tension", Kind::Force, TensionStrength { yield_strength, steel_area }.value()),
        output("torsion", Kind::Torque, torsion),
        output("burst", Kind::Pressure, burst),
        output("collapse", Kind::Pressure, body.collapse_strength(&mut Off)),
    ])
}

/// Collapse with the regime chosen again for the equivalent grade.
fn collapse_under_tension(given: &Given) -> Outcome {
    let body = PipeBody {
        yield_strength: given.quantity("yield_strength", Kind::Stress)?,
        outer_diameter: given.quantity("outer_diameter", Kind::Diameter)?,
        wall: given.quantity("wall", Kind::Diameter)?,
    };
    let axial_stress = given.quantity("axial_stress", Kind::Stress)?;
    Ok(vec![output("collapse", Kind::Pressure, body.collapse_strength_under_tension(axial_stress, &mut Off))])
}

/// Bending strength ratio of a collar by its connection.
fn collar_connection(given: &Given) -> Outcome {
    let connection = given.text("connection")?;
    let thread = thread(connection).ok_or_else(|| format!("no connection {connection}"))?;
    let outer_diameter = given.quantity("outer_diameter", Kind::Diameter)?;
    let inner_diameter = given.quantity("inner_diameter", Kind::Diameter)?;
    let ratio = bending_strength_ratio(&thread, outer_diameter, inner_diameter, &mut Off);
    Ok(vec![output("ratio", Kind::Ratio, ratio.ok_or("no steel is left of pin or box")?)])
}

/// Torque of a tool joint by its connection, in either convention for the shoulder.
fn tool_joint_strength(given: &Given) -> Outcome {
    let connection = given.text("connection")?;
    let joint = ToolJoint {
        thread: thread(connection).ok_or_else(|| format!("no connection {connection}"))?,
        outer_diameter: given.quantity("outer_diameter", Kind::Diameter)?,
        inner_diameter: given.quantity("inner_diameter", Kind::Diameter)?,
        yield_strength: given.quantity("yield_strength", Kind::Stress)?,
    };
    let rule = match given.text("shoulder")? {
        "balanced" => ShoulderRule::Balanced,
        "outside" => ShoulderRule::Outside,
        other => return Err(format!("shoulder is balanced or outside, not {other}")),
    };
    let torsion_strength = joint.torsion_strength(rule, &mut Off);
    let share = given.quantity_or("share", Kind::Fraction, rigwright_physics::tubular::MAKE_UP_SHARE)?;
    Ok(vec![
        output("torsion", Kind::Torque, torsion_strength),
        output("make_up", Kind::Torque, MakeUpTorque { torsion_strength, share }.value()),
    ])
}
