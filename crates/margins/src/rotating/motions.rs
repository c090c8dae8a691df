//! Hook load and surface torque in every motion of the string, over a band of friction factors and at every bit depth.

use crate::fields::drag::{Moved, Moving};
use crate::hoisting::tackle;
use crate::{Answer, Basis, Figure, Scene, sweep};
use rigwright_physics::hoisting::{BlockMotion, StringMotion, TravellingWeight};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{Drilling, Fit, Friction, Operation};

/// Shares of the friction given that are looked at: half of it, as given, and half as much again.
pub const BAND: [f64; 3] = [0.5, 1.0, 1.5];

/// A motion of the string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StringMove {
    /// Pulled out without turning, pumps off.
    PullingOut,
    /// Run in without turning, pumps off.
    RunningIn,
    /// Turning off bottom, pumping.
    Turning,
    /// Pulled up while turning and pumping.
    ReamingUp,
    /// Let down while turning and pumping.
    ReamingDown,
    /// On bottom with the wanted weight, turning and pumping.
    Drilling,
    /// On bottom with the wanted weight, pumping, without turning.
    Sliding,
}

impl StringMove {
    /// Every motion.
    pub const ALL: [StringMove; 7] = [
        StringMove::PullingOut,
        StringMove::RunningIn,
        StringMove::Turning,
        StringMove::ReamingUp,
        StringMove::ReamingDown,
        StringMove::Drilling,
        StringMove::Sliding,
    ];

    /// In plain words, lower case.
    pub const fn name(self) -> &'static str {
        match self {
            StringMove::PullingOut => "pulling out",
            StringMove::RunningIn => "running in",
            StringMove::Turning => "turning off bottom",
            StringMove::ReamingUp => "reaming up",
            StringMove::ReamingDown => "reaming down",
            StringMove::Drilling => "drilling",
            StringMove::Sliding => "sliding with weight",
        }
    }

    /// Names of its figures: hook load and torque.
    const fn figures(self) -> (&'static str, &'static str) {
        match self {
            StringMove::PullingOut => ("hook load pulling out", "torque pulling out"),
            StringMove::RunningIn => ("hook load running in", "torque running in"),
            StringMove::Turning => ("hook load turning off bottom", "torque turning off bottom"),
            StringMove::ReamingUp => ("hook load reaming up", "torque reaming up"),
            StringMove::ReamingDown => ("hook load reaming down", "torque reaming down"),
            StringMove::Drilling => ("hook load drilling", "torque drilling"),
            StringMove::Sliding => ("hook load sliding with weight", "torque sliding"),
        }
    }

    /// The operation that lends it its mud and its speeds.
    pub(super) const fn operation(self) -> Operation {
        match self {
            StringMove::PullingOut => Operation::PullingOut,
            StringMove::RunningIn => Operation::RunningIn,
            StringMove::Turning | StringMove::ReamingUp | StringMove::ReamingDown => Operation::Circulating,
            StringMove::Drilling | StringMove::Sliding => Operation::Drilling,
        }
    }

    const fn turns(self) -> bool {
        !matches!(self, StringMove::PullingOut | StringMove::RunningIn | StringMove::Sliding)
    }

    /// How the string goes in a scene of its operation.
    fn moved(self, scene: &Scene) -> Moved {
        let situation = &scene.situation;
        let Drilling { reaming_speed, penetration_rate, bit_torque, .. } = *scene.section().drilling;
        let on_bottom = matches!(self, StringMove::Drilling | StringMove::Sliding);
        let axial_speed = match self {
            StringMove::PullingOut => situation.pipe_speed,
            StringMove::RunningIn => -situation.pipe_speed,
            StringMove::Turning => 0.0,
            StringMove::ReamingUp => reaming_speed,
            StringMove::ReamingDown => -reaming_speed,
            StringMove::Drilling | StringMove::Sliding => -penetration_rate,
        };
        Moved {
            motion: StringMotion { axial_speed, rotary_speed: if self.turns() { situation.rotary_speed } else { 0.0 } },
            weight_on_bit: if on_bottom { situation.weight_on_bit } else { 0.0 },
            // A bit that a motor turns holds the string back with its torque, which the wall takes up on the way.
            bit_torque: if self == StringMove::Drilling { bit_torque } else { 0.0 },
        }
    }
}

/// Hook load and torque of one motion at one bit depth, over the band of friction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoveRow {
    /// Measured depth of the bit. [m]
    pub bit_depth: f64,
    /// Hook load, block and top drive included, at each share of the friction. [N]
    pub hook_load: [f64; 3],
    /// Torque at surface at each share of the friction. [N·m]
    pub torque: [f64; 3],
}

/// A share of the friction of a fit, no more than the formulas take.
pub(crate) fn scaled(fit: &Fit, share: f64) -> Friction {
    let Friction { cased, open } = *fit.well.friction;
    Friction { cased: (cased * share).min(2.0), open: (open * share).min(2.0) }
}

fn travelling(fit: &Fit) -> f64 {
    TravellingWeight { block_weight: fit.rig.block.weight, drive_weight: fit.rig.drive.weight }.value()
}

/// One motion at some bit depths of a section.
pub fn moves(basis: &Basis, section: usize, motion: StringMove, depths: &[f64]) -> Vec<MoveRow> {
    let fit = basis.fit;
    let Some(bottom) = fit.well.sections.get(section).map(|section| section.bottom) else { return Vec::new() };
    let travelling = travelling(fit);
    let scene = |hole: f64, bit: f64| Scene::new(basis, sweep::situation(fit, section, motion.operation(), hole, bit));
    let end = scene(bottom, bottom);
    let grids = BAND.map(|share| Moving::new(&end).grid(scaled(fit, share)));
    let row = |bit_depth: &f64| {
        // What is done on bottom is done at the bottom of the hole of that moment.
        let on_bottom = motion.operation() == Operation::Drilling;
        let scene = scene(if on_bottom { *bit_depth } else { bottom }, *bit_depth);
        let moving = Moving::new(&scene);
        let (moved, [little, as_given, much]) = (motion.moved(&scene), &grids);
        let [with_little, with_much] = moving.surface_in_both([little, much], &moved);
        let nodes = [with_little, moving.surface(as_given, &moved, &mut Off), with_much];
        MoveRow {
            bit_depth: *bit_depth,
            hook_load: nodes.map(|node| node.effective_tension + travelling),
            torque: nodes.map(|node| node.torque),
        }
    };
    depths.iter().map(row).collect()
}

/// Bit depths of a section that figures and tables look at: every third stand, and its end; on-bottom motions from its top on.
pub fn move_depths(fit: &Fit, section: usize, motion: StringMove) -> Vec<f64> {
    let Some(this) = fit.well.sections.get(section) else { return Vec::new() };
    let step = 3.0 * fit.rig.mast.stand;
    let from = if motion.operation() == Operation::Drilling { this.top } else { 0.0 };
    let inside = (1..).map(|count| f64::from(count) * step).take_while(|depth| *depth < this.bottom);
    inside.filter(|depth| *depth > from).chain([this.bottom]).collect()
}

const COLUMNS: &[(&str, Kind)] = &[
    ("bit depth", Kind::Depth),
    ("hook load at half the friction", Kind::Force),
    ("as given", Kind::Force),
    ("half as much again", Kind::Force),
    ("torque at half", Kind::Torque),
    ("as given", Kind::Torque),
    ("half as much again", Kind::Torque),
];

/// Hook load and torque of every motion.
pub(super) fn by_motion<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (section, bottom) = (scene.situation.section, scene.section().bottom);
    rec.given("friction inside casing, as given", fit.well.friction.cased, Kind::Ratio);
    rec.given("friction in open hole, as given", fit.well.friction.open, Kind::Ratio);
    let mut figures = Vec::new();
    for motion in StringMove::ALL {
        let Some(row) = moves(scene.basis, section, motion, &[bottom]).first().copied() else { continue };
        let (load, torque) = motion.figures();
        figures.push(Figure { name: load, value: row.hook_load[1], kind: Kind::Force });
        if motion.turns() {
            figures.push(Figure { name: torque, value: row.torque[1], kind: Kind::Torque });
        }
        if R::ON {
            rec.heading(motion.name());
            let there = Scene::new(scene.basis, sweep::situation(fit, section, motion.operation(), bottom, bottom));
            let moving = Moving::new(&there);
            let friction = *fit.well.friction;
            rec.note(|| "at the end of the section, with the friction as given".to_owned());
            moving.surface(&moving.grid(friction), &motion.moved(&there), rec);
            rec.take(TravellingWeight { block_weight: fit.rig.block.weight, drive_weight: fit.rig.drive.weight });
            rec.given("hook load with it", row.hook_load[1], Kind::Force);
            rec.table("by bit depth, over a band of friction", COLUMNS, || {
                let row = |row: &MoveRow| {
                    let ([a, b, c], [x, y, z]) = (row.hook_load, row.torque);
                    vec![row.bit_depth, a, b, c, x, y, z]
                };
                moves(scene.basis, section, motion, &move_depths(fit, section, motion)).iter().map(row).collect()
            });
        }
        let shown = match motion {
            StringMove::PullingOut => Some(("an indicator set for standing lines shows, pulling out", BlockMotion::Hoisting)),
            StringMove::RunningIn => Some(("and running in", BlockMotion::Lowering)),
            _ => None,
        };
        if let Some((name, block)) = shown {
            rec.note(|| {
                "Friction of the sheaves is not friction of the hole: the dead line tells another load than the hook bears."
                    .into()
            });
            let tackle = tackle(scene);
            let shown = tackle.dead_line(row.hook_load[1].max(0.0), block, rec) * tackle.lines;
            figures.push(Figure { name, value: shown, kind: Kind::Force });
        }
    }
    Answer::Told(figures)
}
