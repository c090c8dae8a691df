//! Tension, side force and torque along the string: the soft string on the real path.

use crate::Scene;
use crate::fields::PerSection;
use crate::geometry::{self, PipePiece};
use rigwright_physics::Recorder;
use rigwright_physics::hoisting::{
    BitLoad, BuoyancyFactor, BuoyedWeight, DragGrid, DragNode, Hanging, StringMotion, StringPiece, WeightInMuds,
};
use rigwright_physics::tubular::STEEL_DENSITY;
use rigwright_well::{Fit, Motion, Operation};

/// Longest step of the march: a survey interval. The march is of second order; ten times finer steps move the
/// hook load of the demo wells by less than 0.1 % (tested below). [m]
const STEP: f64 = 30.0;

/// What the drag march reads in every situation of a fit: the hole of each section, prepared.
pub struct Prepared {
    grids: PerSection<DragGrid>,
}

impl Prepared {
    /// Prepares a fit.
    pub fn new(fit: &Fit) -> Prepared {
        Prepared { grids: PerSection::new(fit.well.sections.len()) }
    }
}

fn hole_grid(fit: &Fit, section: usize, step: f64) -> DragGrid {
    let (shoe, bottom) = (geometry::open_from(fit, section), fit.well.sections[section].bottom);
    let friction = [(shoe, fit.well.friction.cased), (bottom, fit.well.friction.open)];
    DragGrid::new(&fit.well.path, bottom, step, &friction)
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
        let section = scene.situation.section;
        let grid = scene.basis.drag.grids.get(section, || hole_grid(scene.fit(), section, STEP));
        solve_on(grid, scene, rec)
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

fn solve_on<R: Recorder>(grid: &DragGrid, scene: &Scene, rec: &mut R) -> Drag {
    let situation = &scene.situation;
    let mud_density = scene.section().mud.weight;
    rec.heading("buoyed weight of the string, part by part from the bit up");
    let buoyancy_factor = rec.take(BuoyancyFactor { mud_density, steel_density: STEEL_DENSITY });
    let mut pieces = Vec::with_capacity(scene.string().len());
    for piece in scene.string() {
        rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
        pieces.push(StringPiece {
            length: piece.bottom - piece.top,
            buoyed_weight: weight_in_mud(scene, piece, buoyancy_factor, rec),
            radius: 0.5 * piece.pipe.joint_diameter(),
        });
    }
    let axial_speed = match situation.operation.motion() {
        Motion::Up => situation.pipe_speed,
        Motion::Down => -situation.pipe_speed,
        Motion::Still if situation.operation == Operation::Drilling => -scene.section().drilling.penetration_rate,
        Motion::Still => 0.0,
    };
    let torque = if situation.operation == Operation::Drilling { scene.section().drilling.bit_torque } else { 0.0 };
    let mut hanging = Hanging {
        pieces: &pieces,
        bit_depth: situation.bit_depth,
        motion: StringMotion { axial_speed, rotary_speed: situation.rotary_speed },
        bit: BitLoad { weight: situation.weight_on_bit, torque },
    };
    let mut nodes = Vec::with_capacity((situation.bit_depth / STEP) as usize + pieces.len() + 16);
    let surface = grid.march(&hanging, &mut nodes, rec);
    let (mut picked_up_tension, mut picked_up) = (surface.effective_tension, Vec::new());
    if situation.operation == Operation::RunningCasing {
        rec.heading("the same string picked up off its slips");
        hanging.motion.axial_speed = situation.pipe_speed;
        picked_up.reserve(nodes.len());
        picked_up_tension = grid.march(&hanging, &mut picked_up, rec).effective_tension;
    }
    let (surface_tension, surface_torque) = (surface.effective_tension, surface.torque);
    Drag { nodes, surface_tension, surface_torque, picked_up_tension, picked_up }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};
    use rigwright_physics::Off;

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
