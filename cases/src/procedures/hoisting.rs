//! Examples of the hoisting system.

use rigwright_physics::Off;
use rigwright_physics::hoisting::{BitLoad, DragGrid, Hanging, StringMotion, StringPiece};
use rigwright_units::Kind;

use super::{Outcome, Procedure, output, trajectory};
use crate::Given;

pub(super) const PROCEDURES: &[Procedure] = &[Procedure { name: "drag-march", system: "hoisting", run: drag_march }];

/// The soft string from the bit to surface.
fn drag_march(given: &Given) -> Outcome {
    let path = trajectory::path(given)?;
    let mut friction = Vec::new();
    for row in given.rows("friction")? {
        friction.push((row.quantity("to", Kind::Depth)?, row.quantity("friction_factor", Kind::Ratio)?));
    }
    let mut pieces = Vec::new();
    for row in given.rows("string")? {
        pieces.push(StringPiece {
            length: row.quantity("length", Kind::Depth)?,
            buoyed_weight: row.quantity("buoyed_weight", Kind::ForcePerLength)?,
            radius: row.quantity("radius", Kind::Diameter)?,
            ..StringPiece::SOFT
        });
    }
    let bit_depth = given.quantity("bit_depth", Kind::Depth)?;
    let grid = DragGrid::new(&path, bit_depth, given.quantity("step", Kind::Depth)?, &friction);
    let motion = StringMotion {
        axial_speed: given.quantity_or("axial_speed", Kind::Speed, 0.0)?,
        rotary_speed: given.quantity_or("rotary_speed", Kind::RotarySpeed, 0.0)?,
    };
    let bit = BitLoad {
        weight: given.quantity_or("weight_on_bit", Kind::Force, 0.0)?,
        torque: given.quantity_or("bit_torque", Kind::Torque, 0.0)?,
    };
    let surface = grid.march(&Hanging { pieces: &pieces, bit_depth, motion, bit }, &mut Vec::new(), &mut Off);
    Ok(vec![output("effective_tension", Kind::Force, surface.effective_tension), output("torque", Kind::Torque, surface.torque)])
}
