//! Examples of the string beyond its first checks: buckled pipe, bends, triaxial stress, stretch and free point.

use rigwright_physics::Formula;
use rigwright_physics::Off;
use rigwright_physics::hoisting::{
    FreeSection, Steel, StrainedSection, free_point_by_pull, string_stretch as stretch_of, string_twist as twist_of,
};
use rigwright_physics::rotating::{
    CompressedPipe, JointedPipe, Passage, PipeLoad, PushedPipe, arrival, buckling_band as band_of, damage, stress_in_bend as bend,
};
use rigwright_physics::tubular::{PolarMoment, SteelArea};
use rigwright_units::Kind;

use super::{Outcome, Procedure, output};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[
    Procedure { name: "buckling-band", system: "rotating", run: buckling_band },
    Procedure { name: "pushed-pipe", system: "rotating", run: pushed_pipe },
    Procedure { name: "stress-in-bend", system: "rotating", run: stress_in_bend },
    Procedure { name: "fatigue-damage", system: "rotating", run: fatigue_damage },
    Procedure { name: "worst-equivalent-stress", system: "rotating", run: worst_equivalent_stress },
    Procedure { name: "string-stretch", system: "hoisting", run: string_stretch },
    Procedure { name: "string-twist", system: "hoisting", run: string_twist },
    Procedure { name: "free-point", system: "hoisting", run: free_point },
];

/// The three loads of pipe in compression at one place.
fn buckling_band(given: &Given) -> Outcome {
    let band = band_of(
        &CompressedPipe {
            youngs_modulus: given.quantity("youngs_modulus", Kind::Stress)?,
            second_moment: given.quantity("second_moment", Kind::SecondMoment)?,
            buoyed_weight: given.quantity("buoyed_weight", Kind::ForcePerLength)?,
            clearance: given.quantity("clearance", Kind::Diameter)?,
            inclination: given.quantity("inclination", Kind::Angle)?,
            build: given.quantity("build", Kind::Curvature)?,
        },
        &mut Off,
    );
    Ok(vec![
        output("snaking", Kind::Force, band.snaking),
        output("helix_onset", Kind::Force, band.helix_onset),
        output("helix_full", Kind::Force, band.helix_full),
    ])
}

/// What arrives at the far end of pushed pipe.
fn pushed_pipe(given: &Given) -> Outcome {
    let pipe = PushedPipe {
        youngs_modulus: given.quantity("youngs_modulus", Kind::Stress)?,
        second_moment: given.quantity("second_moment", Kind::SecondMoment)?,
        clearance: given.quantity("clearance", Kind::Diameter)?,
        friction_factor: given.quantity("friction_factor", Kind::Ratio)?,
        lying_drag: given.quantity("lying_drag", Kind::ForcePerLength)?,
        helix_onset: given.quantity("helix_onset", Kind::Force)?,
        length: given.quantity("length", Kind::Depth)?,
    };
    let end = arrival(&pipe, given.quantity("push", Kind::Force)?, &mut Off);
    Ok(vec![
        output("weight", Kind::Force, end.weight),
        output("wound", Kind::Depth, end.wound),
        output("transfer", Kind::Ratio, end.transfer),
    ])
}

/// Bending stress of drill pipe at its joints.
fn stress_in_bend(given: &Given) -> Outcome {
    let pipe = JointedPipe {
        youngs_modulus: given.quantity("youngs_modulus", Kind::Stress)?,
        outer_diameter: given.quantity("outer_diameter", Kind::Diameter)?,
        second_moment: given.quantity("second_moment", Kind::SecondMoment)?,
        joint_diameter: given.quantity("joint_diameter", Kind::Diameter)?,
        half_joint: given.quantity("half_joint", Kind::Depth)?,
    };
    let (tension, curvature) = (given.quantity("tension", Kind::Force)?, given.quantity("curvature", Kind::Curvature)?);
    Ok(vec![output("stress", Kind::Stress, bend(&pipe, tension, curvature, &mut Off))])
}

/// Share of the life that several passages use up.
fn fatigue_damage(given: &Given) -> Outcome {
    let mut passages = Vec::new();
    for row in given.rows("passages")? {
        let bending_stress = row.quantity("bending_stress", Kind::Stress)?;
        passages.push(Passage { bending_stress, revolutions: row.quantity("revolutions", Kind::Count)? });
    }
    Ok(vec![output("damage", Kind::Ratio, damage(&passages, &mut Off))])
}

/// The worst of the four places of a tube.
fn worst_equivalent_stress(given: &Given) -> Outcome {
    let outer_diameter = given.quantity("outer_diameter", Kind::Diameter)?;
    let inner_diameter = given.quantity("inner_diameter", Kind::Diameter)?;
    let load = PipeLoad {
        inner_diameter,
        wall: 0.5 * (outer_diameter - inner_diameter),
        steel_area: SteelArea { outer_diameter, inner_diameter }.value(),
        polar_moment: PolarMoment { outer_diameter, inner_diameter }.value(),
        youngs_modulus: given.quantity("youngs_modulus", Kind::Stress)?,
        inside_pressure: given.quantity("inside_pressure", Kind::Pressure)?,
        outside_pressure: given.quantity("outside_pressure", Kind::Pressure)?,
        true_tension: given.quantity("true_tension", Kind::Force)?,
        curvature: given.quantity("curvature", Kind::Curvature)?,
        torque: given.quantity("torque", Kind::Torque)?,
    };
    let worst = load.worst(&mut Off);
    Ok(vec![output("stress", Kind::Stress, worst.stress), output("radius", Kind::Diameter, worst.radius)])
}

/// The elastic constants that are given; those that the example does not need are nought.
fn steel(given: &Given) -> Result<Steel, String> {
    Ok(Steel {
        youngs_modulus: given.quantity_or("youngs_modulus", Kind::Stress, 0.0)?,
        shear_modulus: given.quantity_or("shear_modulus", Kind::Stress, 0.0)?,
        poisson: given.quantity_or("poisson", Kind::Ratio, 0.0)?,
        thermal_expansion: given.quantity_or("thermal_expansion", Kind::Expansion, 0.0)?,
    })
}

fn sections(given: &Given) -> Result<Vec<FreeSection>, String> {
    let section = |row: &Given| {
        Ok(FreeSection {
            length: row.quantity("length", Kind::Depth)?,
            steel_area: row.quantity("steel_area", Kind::Area)?,
            polar_moment: row.quantity("polar_moment", Kind::SecondMoment)?,
        })
    };
    given.rows("sections")?.iter().map(section).collect()
}

/// How much longer a string is in the hole.
fn string_stretch(given: &Given) -> Outcome {
    let mut strained = Vec::new();
    for row in given.rows("sections")? {
        strained.push(StrainedSection {
            length: row.quantity("length", Kind::Depth)?,
            steel_area: row.quantity("steel_area", Kind::Area)?,
            inner_area: row.quantity("inner_area", Kind::Area)?,
            outer_area: row.quantity("outer_area", Kind::Area)?,
            effective_tension: row.quantity("effective_tension", Kind::Force)?,
            inside_pressure: row.quantity("inside_pressure", Kind::Pressure)?,
            outside_pressure: row.quantity("outside_pressure", Kind::Pressure)?,
            temperature: row.quantity("temperature", Kind::Temperature)?,
        });
    }
    let measured = given.quantity("measured_temperature", Kind::Temperature)?;
    Ok(vec![output("stretch", Kind::Depth, stretch_of(&strained, &steel(given)?, measured, &mut Off))])
}

/// The turns that a torque puts into a string.
fn string_twist(given: &Given) -> Outcome {
    let torque = given.quantity("torque", Kind::Torque)?;
    Ok(vec![output("twist", Kind::Angle, twist_of(&sections(given)?, &steel(given)?, torque, &mut Off))])
}

/// How deep a string is free, from its stretch.
fn free_point(given: &Given) -> Outcome {
    let (pull, stretch) = (given.quantity("pull", Kind::Force)?, given.quantity("stretch", Kind::Depth)?);
    let point = free_point_by_pull(&sections(given)?, &steel(given)?, pull, stretch, &mut Off);
    Ok(vec![output("depth", Kind::Depth, point.depth)])
}
