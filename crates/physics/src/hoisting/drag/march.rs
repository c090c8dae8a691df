//! The march up the string.

use super::grid::{DragGrid, Lie, Step};
use super::{AxialFriction, SideForce, TensionAbove, TorqueAbove, TurningFriction, shares, side_force};
use crate::{Kind, Recorder};

/// A run of like pipe.
#[derive(Clone, Copy, Debug)]
pub struct StringPiece {
    /// Length; the uppermost piece reaches to surface whatever its length. [m]
    pub length: f64,
    /// Buoyed weight per length, joints included. [N/m]
    pub buoyed_weight: f64,
    /// Radius that touches the wall: of the tool joint, coupling or collar. [m]
    pub radius: f64,
}

/// How the string moves.
#[derive(Clone, Copy, Debug, Default)]
pub struct StringMotion {
    /// Along the hole, upwards positive. [m/s]
    pub axial_speed: f64,
    /// Around. [rad/s]
    pub rotary_speed: f64,
}

/// What the bit puts on the lower end of the string.
#[derive(Clone, Copy, Debug, Default)]
pub struct BitLoad {
    /// Weight on bit. [N]
    pub weight: f64,
    /// Torque of the bit. [N·m]
    pub torque: f64,
}

/// A string hung in the hole.
#[derive(Clone, Copy, Debug)]
pub struct Hanging<'a> {
    /// Pieces from the bit up.
    pub pieces: &'a [StringPiece],
    /// Measured depth of the lower end; not below the bottom of the grid. [m]
    pub bit_depth: f64,
    /// How it moves.
    pub motion: StringMotion,
    /// Load on the lower end.
    pub bit: BitLoad,
}

/// The string at one depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DragNode {
    /// Measured depth. [m]
    pub depth: f64,
    /// Effective tension. [N]
    pub effective_tension: f64,
    /// Side force per length half-way down the step below; nought at the bit. [N/m]
    pub side_force: f64,
    /// Torque. [N·m]
    pub torque: f64,
    /// Curvature of the hole in the step below; nought at the bit. [rad/m]
    pub curvature: f64,
}

/// One step as it was computed.
#[derive(Clone, Copy)]
struct Taken {
    step: Step,
    piece: StringPiece,
    below: DragNode,
}

impl DragGrid {
    /// Marches from the bit up. Fills `nodes`, the bit first and surface last, and returns the node at surface.
    ///
    /// Each step weighs its own vertical depth exactly, so that without friction the tension at surface is the
    /// buoyed weight along the vertical to the last digit; friction is taken at the tension half-way up.
    pub fn march<R: Recorder>(&self, hanging: &Hanging, nodes: &mut Vec<DragNode>, rec: &mut R) -> DragNode {
        let mut depth = hanging.bit_depth.min(self.bottom());
        let (effective_tension, torque) = (-hanging.bit.weight, hanging.bit.torque);
        let mut node = DragNode { depth, effective_tension, side_force: 0.0, torque, curvature: 0.0 };
        nodes.clear();
        nodes.push(node);
        let mut taken = Vec::new();
        let mut course = self.courses.partition_point(|course| course.bottom < depth);
        for (index, piece) in hanging.pieces.iter().enumerate() {
            let uppermost = index + 1 == hanging.pieces.len();
            let piece_top = if uppermost { 0.0 } else { (depth - piece.length).max(0.0) };
            let share = shares(hanging.motion.axial_speed, hanging.motion.rotary_speed * piece.radius);
            while depth > piece_top {
                let here = &self.courses[course];
                let top = here.top.max(piece_top);
                // Whole courses are worked out beforehand; both ends are copied, so they compare exactly.
                let whole = top.total_cmp(&here.top).is_eq() && depth.total_cmp(&here.bottom).is_eq();
                let part = if whole { None } else { Some(here.step(top, depth)) };
                let step = part.as_ref().unwrap_or(&here.whole);
                if R::ON {
                    taken.push(Taken { step: *step, piece: *piece, below: node });
                }
                node = climb(step, piece, share, node);
                nodes.push(node);
                depth = top;
                if depth <= here.top {
                    course = course.saturating_sub(1);
                }
            }
        }
        if R::ON {
            show(hanging, &taken, nodes, rec);
        }
        node
    }
}

/// One step up.
#[inline]
fn climb(step: &Step, piece: &StringPiece, share: (f64, f64), below: DragNode) -> DragNode {
    let (w, friction) = (piece.buoyed_weight, step.friction_factor);
    let (axial, turning) = (friction * share.0, friction * share.1);
    let weight = w * step.vertical;
    let side = if step.curvature > 0.0 {
        let start = if axial == 0.0 { 0.0 } else { side_on(step, step.lower, w, below.effective_tension) };
        side_on(step, step.middle, w, below.effective_tension + 0.5 * (weight + axial * start * step.length))
    } else {
        (w * step.middle.sine).abs()
    };
    DragNode {
        depth: step.top,
        effective_tension: below.effective_tension + weight + axial * side * step.length,
        side_force: side,
        torque: below.torque + turning * side * piece.radius * step.length,
        curvature: step.curvature,
    }
}

#[inline]
fn side_on(step: &Step, lie: Lie, weight: f64, tension: f64) -> f64 {
    side_force(tension, weight, step.curvature, lie.vertical_curvature, lie.sine)
}

const COLUMNS: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("effective tension", Kind::Force),
    ("side force", Kind::ForcePerLength),
    ("torque", Kind::Torque),
];

/// First, worst and last step in full, all nodes as a table.
fn show<R: Recorder>(hanging: &Hanging, taken: &[Taken], nodes: &[DragNode], rec: &mut R) {
    let force = |index: &usize| nodes[index + 1].side_force;
    let Some(worst) = (0..taken.len()).max_by(|a, b| force(a).total_cmp(&force(b))) else { return };
    rec.heading("drag and torque along the string, from the bit up");
    rec.note(|| {
        "soft string: no stiffness, no cuttings, no viscous drag, no push of flowing mud; friction taken half-way up each step"
            .into()
    });
    let last = taken.len() - 1;
    for (index, title) in
        [(0, "first step, at the bit"), (worst, "step with the largest side force"), (last, "last step, at surface")]
    {
        if index == 0 || index == worst || index == last {
            rec.heading(title);
            show_step(hanging, &taken[index], rec);
        }
    }
    rec.table("tension, side force and torque", COLUMNS, || {
        nodes.iter().map(|node| vec![node.depth, node.effective_tension, node.side_force, node.torque]).collect()
    });
}

fn show_step<R: Recorder>(hanging: &Hanging, taken: &Taken, rec: &mut R) {
    let Taken { step, piece, below } = *taken;
    rec.stretch(|| "step of the march".into(), step.top, step.top + step.length);
    let (friction_factor, radius) = (step.friction_factor, piece.radius);
    let StringMotion { axial_speed, rotary_speed } = hanging.motion;
    let axial_friction = rec.take(AxialFriction { friction_factor, axial_speed, rotary_speed, radius });
    let turning_friction = rec.take(TurningFriction { friction_factor, axial_speed, rotary_speed, radius });
    let (buoyed_weight, curvature, tension_below) = (piece.buoyed_weight, step.curvature, below.effective_tension);
    let side = |effective_tension, lie: Lie| SideForce {
        effective_tension,
        buoyed_weight,
        curvature,
        vertical_curvature: lie.vertical_curvature,
        sine: lie.sine,
    };
    let start = rec.take(side(tension_below, step.lower));
    let above = |share: f64, side_force: f64| TensionAbove {
        tension_below,
        buoyed_weight,
        vertical_step: share * step.vertical,
        axial_friction,
        side_force,
        step: share * step.length,
    };
    let middle = rec.take(above(0.5, start));
    let side_force = rec.take(side(middle, step.middle));
    rec.take(above(1.0, side_force));
    rec.take(TorqueAbove { torque_below: below.torque, turning_friction, side_force, radius, step: step.length });
}

/// Measured depth where effective tension passes through nought, the lowest such place: pipe below is in compression
/// and can buckle. `None` when the whole string is in tension or all of it in compression. [m]
pub fn neutral_point(nodes: &[DragNode]) -> Option<f64> {
    let pair = nodes.windows(2).find(|pair| pair[0].effective_tension < 0.0 && pair[1].effective_tension >= 0.0)?;
    let share = pair[0].effective_tension / (pair[0].effective_tension - pair[1].effective_tension);
    Some(pair[0].depth + share * (pair[1].depth - pair[0].depth))
}
