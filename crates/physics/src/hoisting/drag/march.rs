//! The march up the string.

use super::contact::stiffness_force;
use super::grid::{Course, DragGrid, Lie, Step, Stride};
use super::{
    AxialFriction, SideForce, StiffnessForce, TensionAbove, TensionWithContact, TorqueAbove, TorqueWithContact, TurningFriction,
    shares, side_force,
};
use crate::rotating::{BucklingUnderSideForce, HELIX_ONSET, HelicalSideForce, VERTICAL_HELIX, VerticalBucklingOfOrder};
use crate::{Formula, Kind, Off, Recorder};

/// A run of like pipe.
#[derive(Clone, Copy, Debug)]
pub struct StringPiece {
    /// Length; the uppermost piece reaches to surface whatever its length. [m]
    pub length: f64,
    /// Buoyed weight per length, joints included. [N/m]
    pub buoyed_weight: f64,
    /// Radius that touches the wall: of the tool joint, coupling or collar. [m]
    pub radius: f64,
    /// Outside diameter of the body. [m]
    pub body_diameter: f64,
    /// Young's modulus. [Pa]
    pub youngs_modulus: f64,
    /// Second moment of area; nought for a soft string, which neither winds nor pushes by its stiffness. [m⁴]
    pub second_moment: f64,
    /// Lift of mud that moves past, per length, upwards positive. [N/m]
    pub lift: f64,
}

impl StringPiece {
    /// Soft pipe in still mud, to be filled in.
    pub const SOFT: StringPiece = StringPiece {
        length: 0.0,
        buoyed_weight: 0.0,
        radius: 0.0,
        body_diameter: 0.0,
        youngs_modulus: 0.0,
        second_moment: 0.0,
        lift: 0.0,
    };

    /// Half of what a hole is wider than the body; `None` where pipe or hole is not known to be stiff and wide. [m]
    fn clearance(&self, hole_diameter: f64) -> Option<f64> {
        let known = self.second_moment > 0.0 && hole_diameter > 0.0;
        known.then(|| (0.5 * (hole_diameter - self.body_diameter)).max(LEAST_CLEARANCE))
    }
}

/// More than any wall presses back. [N/m]
const MOST_SIDE_FORCE: f64 = 1e9;
/// The formulas need some clearance. [m]
const LEAST_CLEARANCE: f64 = 1e-5;

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
    friction_factor: f64,
}

impl DragGrid {
    /// Marches from the bit up. Fills `nodes`, the bit first and surface last, and returns the node at surface.
    ///
    /// Each step weighs its own vertical depth exactly, so that without friction the tension at surface is the
    /// buoyed weight along the vertical to the last digit; friction is taken at the tension half-way up. Pipe in tension takes
    /// the steps of an arc that hardly turns as one.
    pub fn march<R: Recorder>(&self, hanging: &Hanging, nodes: &mut Vec<DragNode>, rec: &mut R) -> DragNode {
        let mut climb = Climb::new(self, hanging);
        nodes.clear();
        nodes.push(climb.node);
        let mut taken = Vec::new();
        while climb.step(|step, piece, below, above| {
            if R::ON {
                let friction_factor = self.friction_factors[step.wall];
                taken.push(Taken { step: *step, piece: *piece, below: *below, friction_factor });
            }
            nodes.push(*above);
        }) {}
        if R::ON {
            show(hanging, &taken, nodes, rec);
        }
        climb.node
    }

    /// The node at surface of the same march, and nothing else.
    pub fn surface(&self, hanging: &Hanging) -> DragNode {
        let mut climb = Climb::new(self, hanging);
        while climb.step(|_, _, _, _| ()) {}
        climb.node
    }

    /// Two marches at once: the same nodes as one after the other. Each step waits for the one below it, so that the
    /// steps of one string fill the waits of the other.
    pub fn march_both(&self, hanging: [&Hanging; 2], nodes: [&mut Vec<DragNode>; 2]) -> [DragNode; 2] {
        let ([one, other], mut climbs) = (nodes, hanging.map(|hanging| Climb::new(self, hanging)));
        for (nodes, climb) in [(&mut *one, &climbs[0]), (&mut *other, &climbs[1])] {
            nodes.clear();
            nodes.push(climb.node);
        }
        climb_both(&mut climbs, |node| one.push(*node), |node| other.push(*node));
        climbs.map(|climb| climb.node)
    }

    /// The nodes at surface of one string in two holes: the same as one after the other, for less.
    pub fn surface_in_both(grids: [&DragGrid; 2], hanging: &Hanging) -> [DragNode; 2] {
        let mut climbs = grids.map(|grid| Climb::new(grid, hanging));
        climb_both(&mut climbs, |_| (), |_| ());
        climbs.map(|climb| climb.node)
    }
}

/// Climbs to surface step by step in turn.
#[inline(always)]
fn climb_both([first, second]: &mut [Climb; 2], mut one: impl FnMut(&DragNode), mut other: impl FnMut(&DragNode)) {
    while first.step(|_, _, _, above| one(above)) & second.step(|_, _, _, above| other(above)) {}
    first.rest(&mut one);
    second.rest(&mut other);
}

/// A march on its way from the bit to surface.
struct Climb<'a> {
    courses: &'a [Course],
    strides: &'a [Stride],
    friction_factors: &'a [f64],
    /// The course below whose end it stands.
    course: usize,
    hanging: &'a Hanging<'a>,
    /// The piece that it climbs, what that shares of friction, and where it ends. [m]
    piece: usize,
    share: (f64, f64),
    piece_top: f64,
    node: DragNode,
}

impl<'a> Climb<'a> {
    /// At the bit.
    fn new(grid: &'a DragGrid, hanging: &'a Hanging) -> Climb<'a> {
        let depth = hanging.bit_depth.min(grid.bottom());
        let (effective_tension, torque) = (-hanging.bit.weight, hanging.bit.torque);
        let node = DragNode { depth, effective_tension, side_force: 0.0, torque, curvature: 0.0 };
        let (courses, strides, friction_factors) = (&grid.courses[..], &grid.strides[..], &grid.friction_factors[..]);
        let course = courses.partition_point(|course| course.bottom < depth);
        let mut climb =
            Climb { courses, strides, friction_factors, course, hanging, piece: 0, share: (0.0, 0.0), piece_top: depth, node };
        climb.onto(0);
        climb
    }

    /// Onto a piece of the string.
    fn onto(&mut self, index: usize) {
        let Some(piece) = self.hanging.pieces.get(index) else { return };
        let uppermost = index + 1 == self.hanging.pieces.len();
        self.piece = index;
        self.piece_top = if uppermost { 0.0 } else { (self.node.depth - piece.length).max(0.0) };
        let motion = self.hanging.motion;
        self.share = shares(motion.axial_speed, motion.rotary_speed * piece.radius);
    }

    /// All steps that are left.
    fn rest(&mut self, mut tell: impl FnMut(&DragNode)) {
        while self.step(|_, _, _, above| tell(above)) {}
    }

    /// One step up, told with the nodes below and above it; whether there was one left.
    #[inline(always)]
    fn step(&mut self, mut tell: impl FnMut(&Step, &StringPiece, &DragNode, &DragNode)) -> bool {
        while self.node.depth <= self.piece_top {
            if self.piece + 1 >= self.hanging.pieces.len() {
                return false;
            }
            self.onto(self.piece + 1);
        }
        let (piece, here) = (&self.hanging.pieces[self.piece], &self.courses[self.course]);
        // Pipe in compression may wind, which changes from step to step.
        let stride = here.stride.filter(|_| self.node.effective_tension >= 0.0).map(|stride| &self.strides[stride]);
        if let Some(stride) = stride
            && self.over(&stride.course, stride.first, piece, &mut tell)
        {
            return true;
        }
        self.over(here, self.course, piece, &mut tell);
        true
    }

    /// Climbs a course, whose uppermost part is this one of the grid, or what the piece leaves of it. A stride that would end in
    /// compression is not made.
    #[inline(always)]
    fn over(
        &mut self,
        here: &Course,
        first: usize,
        piece: &StringPiece,
        tell: &mut impl FnMut(&Step, &StringPiece, &DragNode, &DragNode),
    ) -> bool {
        let depth = self.node.depth;
        let ends_course = here.top >= self.piece_top;
        let top = if ends_course { here.top } else { self.piece_top };
        // Whole courses are worked out beforehand; both ends are copied, so they compare exactly.
        let part;
        let step = if ends_course && depth.to_bits() == here.bottom.to_bits() {
            &here.whole
        } else {
            part = here.step(top, depth);
            &part
        };
        let above = step_up(step, piece, (self.friction_factors[step.wall], self.share), &self.node);
        if first != self.course && above.effective_tension < 0.0 {
            return false;
        }
        tell(step, piece, &self.node, &above);
        self.node = above;
        if ends_course {
            self.course = first.saturating_sub(1);
        } else if first != self.course {
            self.course = self.courses.partition_point(|course| course.bottom < top);
        }
        true
    }
}

/// One step up. A march is little else, so that a call for each step would count; each waits for the tension of the one below, so that
/// sums begin with what is known without it.
#[inline(always)]
fn step_up(step: &Step, piece: &StringPiece, (friction, share): (f64, (f64, f64)), below: &DragNode) -> DragNode {
    let w = piece.buoyed_weight;
    let (axial, turning) = (friction * share.0, friction * share.1);
    let (weight, rubbed) = (w * step.vertical, axial * step.length);
    let mut side = if step.curvature > 0.0 {
        let start = if axial == 0.0 { 0.0 } else { side_on(step, step.lower, w, below.effective_tension) };
        side_on(step, step.middle, w, (below.effective_tension + 0.5 * weight) + 0.5 * rubbed * start)
    } else {
        (w * step.middle.sine).abs()
    };
    if below.effective_tension < 0.0
        && let Some(clearance) = piece.clearance(step.hole_diameter)
    {
        side += helix(step, piece, (axial, side, clearance), below, &mut Off).unwrap_or(0.0);
    }
    let tension = (below.effective_tension + (weight - piece.lift * step.length)) + rubbed * side;
    // Most steps lie inside an arc.
    let bends = if step.bend_change > 0.0 { piece.clearance(step.hole_diameter) } else { None };
    let push = bends.map_or(0.0, |clearance| {
        stiffness_force(piece.youngs_modulus * piece.second_moment, step.bend_change, tension, clearance)
    });
    DragNode {
        depth: step.top,
        effective_tension: tension + axial * push,
        side_force: side,
        torque: below.torque + turning * piece.radius * (side * step.length + push),
        curvature: step.curvature,
    }
}

/// Side force that a helix adds at the compression half-way up a step, its own friction counted. [N/m]
fn helix<R: Recorder>(
    step: &Step,
    piece: &StringPiece,
    (axial, side, clearance): (f64, f64, f64),
    below: &DragNode,
    rec: &mut R,
) -> Option<f64> {
    let start = wound(step, piece, below.effective_tension, (side, clearance), &mut Off).unwrap_or(0.0);
    let half = 0.5 * (piece.buoyed_weight * step.vertical + axial * (side + start) * step.length);
    wound(step, piece, below.effective_tension + half, (side, clearance), rec)
}

/// Side force that a helix adds; `None` while the pipe does not wind. It winds where its compression passes the onset of
/// the helix of pipe on a wall, and of pipe that hangs free. [N/m]
fn wound<R: Recorder>(
    step: &Step,
    piece: &StringPiece,
    tension: f64,
    (side_force, clearance): (f64, f64),
    rec: &mut R,
) -> Option<f64> {
    let StringPiece { youngs_modulus, second_moment, buoyed_weight, .. } = *piece;
    let compression = -tension;
    let on_wall =
        BucklingUnderSideForce { buckling_coefficient: HELIX_ONSET, youngs_modulus, second_moment, side_force, clearance };
    let along = (buoyed_weight * step.vertical / step.length).max(0.0);
    let free = VerticalBucklingOfOrder { order_coefficient: VERTICAL_HELIX, youngs_modulus, second_moment, buoyed_weight: along };
    if compression <= on_wall.value() || compression <= free.value() {
        return None;
    }
    rec.note(|| "the pipe winds here: its compression is above the onset of the helix, on the wall and hanging free".into());
    rec.take(on_wall);
    rec.take(free);
    // A string pushed far beyond what any bears would press without end.
    Some(rec.take(HelicalSideForce { clearance, compression, youngs_modulus, second_moment }).min(MOST_SIDE_FORCE))
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
        "friction taken half-way up each step, for pipe in tension as long as one arc turns by a quarter of a degree; where pipe is stiff and the hole's diameter known, the push of its stiffness at changes of bend and the side force of a helix count too; no cuttings"
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
    let Taken { step, piece, below, friction_factor } = *taken;
    rec.stretch(|| "step of the march".into(), step.top, step.top + step.length);
    let radius = piece.radius;
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
    let lying = rec.take(side(middle, step.middle));
    let stiff = piece.clearance(step.hole_diameter);
    let winding = stiff.filter(|_| tension_below < 0.0);
    let winding = winding.and_then(|clearance| helix(&step, &piece, (axial_friction, lying, clearance), &below, rec));
    let side_force = lying + winding.unwrap_or(0.0);
    let tension = rec.take(above(1.0, side_force));
    let torque = rec.take(TorqueAbove { torque_below: below.torque, turning_friction, side_force, radius, step: step.length });
    let (youngs_modulus, second_moment, lift) = (piece.youngs_modulus, piece.second_moment, piece.lift);
    let bend_change = step.bend_change;
    let push = match stiff {
        Some(clearance) if bend_change > 0.0 => {
            let effective_tension = tension - lift * step.length;
            rec.take(StiffnessForce { bend_change, youngs_modulus, second_moment, effective_tension, clearance })
        }
        _ => 0.0,
    };
    if push > 0.0 || lift.abs() > 0.0 {
        rec.take(TensionWithContact { tension, lift, step: step.length, axial_friction, push });
    }
    if push > 0.0 {
        rec.take(TorqueWithContact { torque, turning_friction, radius, push });
    }
}

/// Measured depth where effective tension passes through nought, the lowest such place: pipe below is in compression
/// and can buckle. `None` when the whole string is in tension or all of it in compression. [m]
pub fn neutral_point(nodes: &[DragNode]) -> Option<f64> {
    let pair = nodes.windows(2).find(|pair| pair[0].effective_tension < 0.0 && pair[1].effective_tension >= 0.0)?;
    let share = pair[0].effective_tension / (pair[0].effective_tension - pair[1].effective_tension);
    Some(pair[0].depth + share * (pair[1].depth - pair[0].depth))
}
