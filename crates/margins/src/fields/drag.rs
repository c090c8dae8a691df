//! Tension, side force and torque along the string on the real path: the soft string, with the push of its stiffness where the
//! hole changes its bend, the side force of wound pipe, the lift of moving mud and the push of the jets.

use crate::Scene;
use crate::fields::PerSection;
use crate::fields::flow::Piece;
use crate::geometry::{self, Pipe, PipePiece};
use crate::rotating::{YOUNGS_MODULUS, worn_diameter};
use rigwright_physics::circulating::bit::{JetImpact, JetVelocity};
use rigwright_physics::hoisting::{
    BitLoad, BuoyancyFactor, BuoyedWeight, DragGrid, DragNode, FlowLift, Hanging, StringMotion, StringPiece, Wall, WeightInMuds,
};
use rigwright_physics::tubular::{STEEL_DENSITY, SecondMoment};
use rigwright_physics::{Formula, Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Fit, Friction, Motion, Operation, Part, PartKind, Parts, Situation, note};
use rustc_hash::FxHashMap;
use std::cell::RefCell;

/// Longest step of the march in a bend and in compression: a survey interval. The march is of second order; ten times finer steps move the
/// hook load of the demo wells by less than 0.1 % (tested below). [m]
const STEP: f64 = 30.0;

/// What the drag march reads in every situation of a fit: the hole of each section, prepared.
pub struct Prepared {
    grids: PerSection<DragGrid>,
    /// Tensions at surface that were found while pulling out, by section and depth of the bit to the last bit: a trip asks for them
    /// again stand by stand.
    pulled: RefCell<FxHashMap<(usize, u64), Pulled>>,
}

/// A tension at surface, of which situation it is and what it stands on.
#[derive(Clone, Copy)]
struct Pulled {
    situation: Situation,
    tension: f64,
    parts: Parts,
}

impl Prepared {
    /// Prepares a fit.
    pub fn new(fit: &Fit) -> Prepared {
        Prepared { grids: PerSection::new(fit.well.sections.len()), pulled: RefCell::default() }
    }

    /// Keeps the tension of a situation, which stands on these parts.
    pub(crate) fn learn(&self, situation: Situation, tension: f64, parts: Parts) {
        if situation.operation == Operation::PullingOut {
            let place = (situation.section, situation.bit_depth.to_bits());
            self.pulled.borrow_mut().insert(place, Pulled { situation, tension, parts });
        }
    }

    /// The tension of a situation, where it was found before.
    fn known(&self, situation: &Situation) -> Option<f64> {
        let pulled = *self.pulled.borrow().get(&(situation.section, situation.bit_depth.to_bits()))?;
        (pulled.situation == *situation).then(|| {
            note(pulled.parts);
            pulled.tension
        })
    }
}

fn hole_grid(fit: &Fit, section: usize, step: f64) -> DragGrid {
    let bottom = fit.well.sections[section].bottom;
    DragGrid::in_hole(&fit.well.path, bottom, step, &walls(fit, section, *fit.well.friction))
}

/// The walls of a section's hole from the top down, with these friction factors.
fn walls(fit: &Fit, section: usize, friction: Friction) -> Vec<Wall> {
    let this = &fit.well.sections[section];
    let mut walls: Vec<Wall> = geometry::hole(fit, section, this.bottom)
        .iter()
        .map(|piece| Wall {
            bottom: piece.bottom,
            friction_factor: if piece.cased { friction.cased } else { friction.open },
            diameter: piece.diameter,
        })
        .collect();
    if walls.is_empty() {
        walls.push(Wall { bottom: this.bottom, friction_factor: friction.open, diameter: this.open_diameter() });
    }
    walls
}

/// The prepared hole of a scene's section.
fn prepared<'a>(scene: &Scene<'a>) -> &'a DragGrid {
    let section = scene.situation.section;
    scene.basis.drag.grids.get(section, || hole_grid(scene.fit(), section, STEP))
}

/// The string's field in one situation.
pub struct Drag {
    /// From the bit up to surface.
    pub nodes: Vec<DragNode>,
    /// Effective tension at surface: the string's own load, without block and top drive. [N]
    pub surface_tension: f64,
    /// Torque at surface. [N·m]
    pub surface_torque: f64,
    /// Effective tension at surface when the string is picked up: casing has to come off its slips at every joint, so
    /// that friction acts downwards on the way in too. The same as `surface_tension` for everything else. [N]
    pub picked_up_tension: f64,
    /// The string while it is picked up, where that differs: casing between two joints. Empty otherwise.
    picked_up: Vec<DragNode>,
}

impl Drag {
    /// Solves a situation.
    pub fn solve<R: Recorder>(scene: &Scene, rec: &mut R) -> Drag {
        solve_on(prepared(scene), scene, rec)
    }

    fn new(nodes: Vec<DragNode>, surface: DragNode) -> Drag {
        let (surface_tension, surface_torque) = (surface.effective_tension, surface.torque);
        Drag { nodes, surface_tension, surface_torque, picked_up_tension: surface_tension, picked_up: Vec::new() }
    }

    /// The fields of two situations of a section whose strings are not casing, worked out side by side.
    pub(crate) fn solve_both(scenes: [&Scene; 2]) -> [Drag; 2] {
        let pieces = scenes.map(|scene| pieces(scene, &mut Off));
        let [one, other] = [0, 1].map(|index| hanging(scenes[index], &pieces[index], &mut Off));
        let grid = prepared(scenes[0]);
        let mut nodes = [nodes_for(grid, &one), nodes_for(grid, &other)];
        let [at_one, at_other] = grid.march_both([&one, &other], nodes.each_mut());
        let [of_one, of_other] = nodes;
        [Drag::new(of_one, at_one), Drag::new(of_other, at_other)]
    }

    /// The nodes of the heavier way: picked up where that differs.
    pub fn heaviest(&self) -> &[DragNode] {
        if self.picked_up.is_empty() { &self.nodes } else { &self.picked_up }
    }

    /// Tension and torque at a measured depth, straight between nodes. [N, N·m]
    pub fn at(&self, depth: f64) -> (f64, f64) {
        along(&self.nodes, depth)
    }

    /// The same of the heavier way. [N, N·m]
    pub fn heaviest_at(&self, depth: f64) -> (f64, f64) {
        along(self.heaviest(), depth)
    }
}

/// Tension and torque at a measured depth, straight between nodes. [N, N·m]
fn along(nodes: &[DragNode], depth: f64) -> (f64, f64) {
    // Nodes run upwards, so depth falls along them.
    let above = nodes.partition_point(|node| node.depth >= depth);
    match (above.checked_sub(1).and_then(|below| nodes.get(below)), nodes.get(above)) {
        (Some(below), Some(above)) => {
            let share = (below.depth - depth) / (below.depth - above.depth);
            let between = |lower: f64, upper: f64| lower + (upper - lower) * share;
            (between(below.effective_tension, above.effective_tension), between(below.torque, above.torque))
        }
        (Some(end), None) | (None, Some(end)) => (end.effective_tension, end.torque),
        (None, None) => (0.0, 0.0),
    }
}

/// Weight of a piece in mud per length: full of the same mud, or empty inside. [N/m]
pub(crate) fn weight_in_mud<R: Recorder>(scene: &Scene, piece: &PipePiece, buoyancy_factor: f64, rec: &mut R) -> f64 {
    let (linear_mass, gravity) = (piece.pipe.linear_mass(), scene.gravity());
    if !piece.empty {
        return rec.take(BuoyedWeight { linear_mass, gravity, buoyancy_factor });
    }
    rec.note(|| "it stands empty inside, on its floats".into());
    let inner_area = std::f64::consts::FRAC_PI_4 * piece.pipe.inner_diameter() * piece.pipe.inner_diameter();
    let outside_density = scene.section().mud.weight;
    let steel_density = STEEL_DENSITY;
    rec.take(WeightInMuds { linear_mass, inner_area, inside_density: 0.0, outside_density, gravity, steel_density })
}

/// How a string moves and what its bit takes, other than its situation says.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Moved {
    /// Along and around.
    pub(crate) motion: StringMotion,
    /// Weight on bit, without the push of the jets. [N]
    pub(crate) weight_on_bit: f64,
    /// Torque of the bit. [N·m]
    pub(crate) bit_torque: f64,
}

/// Effective tension and torque at surface for many motions of the string of one scene, in a hole with other friction.
pub(crate) struct Moving<'a, 'b> {
    scene: &'a Scene<'b>,
    pieces: Vec<StringPiece>,
    jets: f64,
}

impl<'a, 'b> Moving<'a, 'b> {
    /// The string of a scene; the mud moves as the scene has it.
    pub(crate) fn new(scene: &'a Scene<'b>) -> Moving<'a, 'b> {
        Moving { scene, pieces: pieces(scene, &mut Off), jets: jets(scene, &mut Off) }
    }

    /// The hole of the scene with these friction factors.
    pub(crate) fn grid(&self, friction: Friction) -> DragGrid {
        prepared(self.scene).rubbing(&walls(self.scene.fit(), self.scene.situation.section, friction))
    }

    /// The node at surface.
    pub(crate) fn surface<R: Recorder>(&self, grid: &DragGrid, moved: &Moved, rec: &mut R) -> DragNode {
        let hanging = self.hanging(moved);
        if R::ON { grid.march(&hanging, &mut Vec::new(), rec) } else { grid.surface(&hanging) }
    }

    /// The nodes at surface in two holes.
    pub(crate) fn surface_in_both(&self, grids: [&DragGrid; 2], moved: &Moved) -> [DragNode; 2] {
        DragGrid::surface_in_both(grids, &self.hanging(moved))
    }

    fn hanging(&self, moved: &Moved) -> Hanging<'_> {
        let bit = BitLoad { weight: moved.weight_on_bit + self.jets, torque: moved.bit_torque };
        Hanging { pieces: &self.pieces, bit_depth: self.scene.situation.bit_depth, motion: moved.motion, bit }
    }
}

/// Pieces of the string from the bit up, in the mud that moves past them.
fn pieces<R: Recorder>(scene: &Scene, rec: &mut R) -> Vec<StringPiece> {
    let mud_density = scene.section().mud.weight;
    rec.heading("buoyed weight of the string, part by part from the bit up");
    let buoyancy_factor = rec.take(BuoyancyFactor { mud_density, steel_density: STEEL_DENSITY });
    let moves = scene.situation.flow_rate > 0.0 || scene.situation.operation.motion() != Motion::Still;
    let annuli: &[Piece] = if moves { &scene.flow(&mut Off).pieces } else { &[] };
    let mut pieces = Vec::with_capacity(scene.string().len() + annuli.len());
    let mut lifts = Vec::new();
    for piece in scene.string() {
        rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
        let body_diameter = match piece.pipe {
            Pipe::Part(part) => worn_diameter(part, &mut Off),
            Pipe::Casing(casing) => casing.outer_diameter,
        };
        let inner_diameter = piece.pipe.inner_diameter();
        // A bit is a short plug: it neither bends nor winds.
        let bit = matches!(piece.pipe, Pipe::Part(part) if part.kind == PartKind::Bit);
        let solid = SecondMoment { outer_diameter: body_diameter, inner_diameter };
        let whole = StringPiece {
            length: piece.bottom - piece.top,
            buoyed_weight: weight_in_mud(scene, piece, buoyancy_factor, rec),
            radius: 0.5 * piece.pipe.joint_diameter(),
            body_diameter,
            youngs_modulus: YOUNGS_MODULUS,
            second_moment: if bit { 0.0 } else { solid.value() },
            lift: 0.0,
        };
        let before = pieces.len();
        for annulus in annuli.iter().rev().filter(|annulus| annulus.annulus.pipe_diameter > 0.0) {
            let (top, bottom) = (annulus.annulus.top.max(piece.top), annulus.annulus.bottom.min(piece.bottom));
            if bottom > top + 1e-9 {
                let (outer_diameter, hole_diameter) = (annulus.annulus.pipe_diameter, annulus.annulus.hole_diameter);
                let lift = FlowLift { outer_diameter, hole_diameter, gradient: annulus.gradient };
                pieces.push(StringPiece { length: bottom - top, lift: lift.value(), ..whole });
                if R::ON {
                    lifts.push((top, bottom, lift));
                }
            }
        }
        if pieces.len() == before {
            pieces.push(whole);
        }
    }
    show_lifts(&lifts, rec);
    pieces
}

const LIFTS: &[(&str, Kind)] = &[
    ("from", Kind::Depth),
    ("to", Kind::Depth),
    ("friction in the annulus", Kind::PressureGradient),
    ("lift", Kind::ForcePerLength),
];

/// The largest lift in full, all as a table.
fn show_lifts<R: Recorder>(lifts: &[(f64, f64, FlowLift)], rec: &mut R) {
    let most = lifts.iter().max_by(|a, b| a.2.value().abs().total_cmp(&b.2.value().abs()));
    let Some((top, bottom, lift)) = most.filter(|most| most.2.value().abs() > 0.0) else { return };
    rec.heading("lift of the mud that moves past the string");
    rec.stretch(|| "annulus with the largest lift".to_owned(), *top, *bottom);
    rec.take(*lift);
    rec.table("lift along the string; below nought it drags downwards", LIFTS, || {
        lifts.iter().map(|(top, bottom, lift)| vec![*top, *bottom, lift.gradient, lift.value()]).collect()
    });
}

/// Push of the jets on the bit, upwards; nought without pumps or known nozzles. [N]
fn jets<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let (flow_rate, density) = (scene.situation.flow_rate, scene.section().mud.weight);
    let bit = scene.string().first().map(|piece| piece.pipe);
    match bit {
        Some(Pipe::Part(Part { flow_area: Some(flow_area), .. })) if flow_rate > 0.0 => {
            rec.heading("push of the jets on the bit, on top of the weight on bit");
            let jet_velocity = rec.take(JetVelocity { flow_rate, flow_area: *flow_area });
            rec.take(JetImpact { density, flow_rate, jet_velocity })
        }
        _ => 0.0,
    }
}

/// Effective tension at surface alone: what [`Drag::solve`] finds without keeping the rest. [N]
pub(crate) fn surface_tension(scene: &Scene) -> f64 {
    if let Some(known) = scene.basis.drag.known(&scene.situation) {
        return known;
    }
    let pieces = pieces(scene, &mut Off);
    prepared(scene).surface(&hanging(scene, &pieces, &mut Off)).effective_tension
}

/// The string of a scene as it moves and stands on its bit.
fn hanging<'a, R: Recorder>(scene: &Scene, pieces: &'a [StringPiece], rec: &mut R) -> Hanging<'a> {
    let situation = &scene.situation;
    let axial_speed = match situation.operation.motion() {
        Motion::Up => situation.pipe_speed,
        Motion::Down => -situation.pipe_speed,
        Motion::Still if situation.operation == Operation::Drilling => -scene.section().drilling.penetration_rate,
        Motion::Still => 0.0,
    };
    let torque = if situation.operation == Operation::Drilling { scene.section().drilling.bit_torque } else { 0.0 };
    let weight = situation.weight_on_bit + jets(scene, rec);
    Hanging {
        pieces,
        bit_depth: situation.bit_depth,
        motion: StringMotion { axial_speed, rotary_speed: situation.rotary_speed },
        bit: BitLoad { weight, torque },
    }
}

fn solve_on<R: Recorder>(grid: &DragGrid, scene: &Scene, rec: &mut R) -> Drag {
    let pieces = pieces(scene, rec);
    let hanging = hanging(scene, &pieces, rec);
    let lifted = lifted(scene, &pieces);
    let up = Hanging {
        pieces: &lifted,
        motion: StringMotion { axial_speed: scene.situation.pipe_speed, ..hanging.motion },
        ..hanging
    };
    let mut nodes = nodes_for(grid, &hanging);
    if lifted.is_empty() {
        let surface = grid.march(&hanging, &mut nodes, rec);
        return Drag::new(nodes, surface);
    }
    let mut picked_up = nodes_for(grid, &up);
    let [down, up] = if R::ON {
        let down = grid.march(&hanging, &mut nodes, rec);
        rec.heading("the same string picked up off its slips");
        [down, grid.march(&up, &mut picked_up, rec)]
    } else {
        grid.march_both([&hanging, &up], [&mut nodes, &mut picked_up])
    };
    Drag { picked_up_tension: up.effective_tension, picked_up, ..Drag::new(nodes, down) }
}

/// The pieces of casing that is picked up between two joints: what was surge is swab then. None of any other string.
fn lifted(scene: &Scene, pieces: &[StringPiece]) -> Vec<StringPiece> {
    let casing = scene.situation.operation == Operation::RunningCasing;
    let pieces = if casing { pieces } else { &[] };
    pieces.iter().map(|piece| StringPiece { lift: -piece.lift, ..*piece }).collect()
}

/// Room for the nodes of a march; one through much compression asks for more.
fn nodes_for(grid: &DragGrid, hanging: &Hanging) -> Vec<DragNode> {
    Vec::with_capacity(grid.fewest_steps() + hanging.pieces.len() + 16)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};

    #[test]
    fn law_finer_steps_hardly_move_the_hook_load() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        for operation in [Operation::PullingOut, Operation::RunningIn, Operation::Drilling] {
            let scene = Scene::new(&basis, sweep::situation(&fit, 2, operation, bottom, bottom));
            let coarse = Drag::solve(&scene, &mut Off);
            let fine = solve_on(&hole_grid(&fit, 2, STEP / 10.0), &scene, &mut Off);
            assert!((coarse.surface_tension / fine.surface_tension - 1.0).abs() < 1e-3);
            assert!((coarse.surface_torque - fine.surface_torque).abs() <= 1e-3 * fine.surface_torque.max(1.0));
        }
    }

    /// Definition: a prepared hole that is given other friction is the hole prepared with that friction.
    #[test]
    fn law_other_friction_needs_no_other_hole() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::PullingOut, 4000.0, 4000.0));
        let friction = Friction { cased: 0.37, open: 0.11 };
        let mut other = fit.clone();
        *other.well.friction = friction;
        let moving = Moving::new(&scene);
        let motion = StringMotion { axial_speed: 0.5, rotary_speed: 0.0 };
        let moved = Moved { motion, weight_on_bit: 0.0, bit_torque: 0.0 };
        let surface = |grid: &DragGrid| moving.surface(grid, &moved, &mut Off).effective_tension;
        let (given, anew) = (surface(&moving.grid(friction)), surface(&hole_grid(&other, 2, STEP)));
        assert!((given - anew).abs() <= 1e-12 * anew, "{given} {anew}");
        assert!((given - surface(prepared(&scene))).abs() > 1.0);
    }

    /// Definition: the tension alone is that of the whole march, to the last digit.
    #[test]
    fn law_the_tension_at_surface_needs_no_nodes() {
        for name in ["ostrick", "tolvane", "quellmere"] {
            let fit = crate::example(name);
            let basis = Basis::new(&fit);
            for situation in sweep::in_section(&fit, fit.well.sections.len() - 1) {
                let scene = Scene::new(&basis, situation);
                let (alone, whole) = (surface_tension(&scene), Drag::solve(&scene, &mut Off).surface_tension);
                assert_eq!(alone.to_bits(), whole.to_bits(), "{name} {situation:?}");
            }
        }
    }

    #[test]
    fn law_a_still_string_weighs_its_buoyed_weight_along_the_vertical() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Connection, bottom, bottom));
        let buoyed = 1.0 - fit.well.sections[2].mud.weight / STEEL_DENSITY;
        let weight: f64 = scene
            .string()
            .iter()
            .map(|piece| piece.pipe.linear_mass() * (scene.vertical_depth(piece.bottom) - scene.vertical_depth(piece.top)))
            .sum::<f64>()
            * buoyed
            * scene.gravity();
        let tension = scene.drag(&mut Off).surface_tension;
        assert!((tension / weight - 1.0).abs() < 1e-9, "{tension} {weight}");
    }
}
