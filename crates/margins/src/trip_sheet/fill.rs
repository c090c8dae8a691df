//! What a stand or joint of each kind of pipe leaves behind, and how many may come out before the hole must be filled.

use crate::Scene;
use crate::circulating::pumps::pump_output;
use crate::geometry::{self, Pipe};
use crate::kill_sheet::Constants;
use crate::kill_sheet::lengths::scaled;
use rigwright_physics::circulating::column::LevelDrop;
use rigwright_physics::circulating::passage::{AnnularCapacity, BoreCapacity};
use rigwright_physics::control::kill::KillStrokes;
use rigwright_physics::control::trips::{PressureDropDry, PressureDropWet, PulledVolume, StandsBeforeFill};
use rigwright_physics::tubular::{STEEL_DENSITY, SteelDisplacement};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{Fit, PartKind};

/// Fall of hydrostatic pressure before the hole must be filled: 75 psi, 30 CFR 250.456 (from memory). [Pa]
pub const ALLOWED_FALL: f64 = 75.0 * 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY / (0.0254 * 0.0254);
/// Stands of drill pipe before the hole must be filled, where they drop less (from memory, as above).
pub const ALLOWED_STANDS: f64 = 5.0;

/// What pipe is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Each {
    /// Stands of the mast.
    Stand,
    /// Joints of casing.
    Joint,
}

impl Each {
    /// In plain words.
    pub const fn word(self) -> &'static str {
        match self {
            Each::Stand => "stand",
            Each::Joint => "joint",
        }
    }
}

/// Filling for one kind of pipe, with that pipe standing in the top of the hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// What it is called.
    pub name: String,
    /// What it is counted in.
    pub each: Each,
    /// Length of one. [m]
    pub length: f64,
    /// Steel for each length. [m³/m]
    pub displacement: f64,
    /// Bore for each length. [m³/m]
    pub capacity: f64,
    /// Its mud stays in the hole.
    pub dry: Way,
    /// Its mud comes out with it and is not given back.
    pub wet: Way,
}

/// One way of pulling a kind of pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// Volume for each. [m³]
    pub volume: f64,
    /// Strokes of one pump that fill it; `None` for a duplex whose rod nobody gave. [-]
    pub strokes: Option<f64>,
    /// Fall of the level for each, unfilled. [m]
    pub fall: f64,
    /// Fall of hydrostatic pressure for each, unfilled. [Pa]
    pub drop: f64,
    /// How many may come out before the hole must be filled, rounded down; nought asks to fill while pulling.
    pub before: f64,
}

/// Diameter of the top of the hole. [m]
pub(super) fn top_of_hole(scene: &Scene) -> Option<f64> {
    let hole = geometry::hole(scene.fit(), scene.situation.section, scene.situation.hole_depth);
    hole.first().map(|stretch| stretch.diameter)
}

/// Capacity between a pipe and the top of the hole. [m³/m]
pub(super) fn at_the_top(scene: &Scene, pipe: &Pipe) -> Option<AnnularCapacity> {
    let ring = AnnularCapacity { hole_diameter: top_of_hole(scene)?, pipe_diameter: pipe.outer_diameter() };
    (ring.value() > 0.0).then_some(ring)
}

/// Steel of a pipe for each length. [m³/m]
pub(super) fn steel(pipe: &Pipe) -> SteelDisplacement {
    SteelDisplacement { linear_mass: pipe.linear_mass(), steel_density: STEEL_DENSITY }
}

/// Filling for a kind of pipe; `None` where it has no bore or fills the top of the hole.
fn fill<R: Recorder>(scene: &Scene, pipe: Pipe, constants: &Constants, rec: &mut R) -> Option<Fill> {
    let (each, stand) = match pipe {
        Pipe::Part(_) => (Each::Stand, scene.fit().rig.mast.stand),
        Pipe::Casing(casing) => (Each::Joint, casing.joint_length),
    };
    let ring = at_the_top(scene, &pipe).filter(|_| pipe.inner_diameter() > 0.0)?;
    let (mud_weight, gravity) = (scene.section().mud.weight, constants.gravity);
    let is_drill_pipe = matches!(pipe, Pipe::Part(part) if part.kind == PartKind::DrillPipe);
    let most = if is_drill_pipe { ALLOWED_STANDS } else { f64::INFINITY };
    rec.heading("filling for a kind of pipe");
    rec.note(|| pipe.name().to_owned());
    let displacement = rec.take(steel(&pipe));
    let by_sheet = |exact: f64, rec: &mut R| scaled(exact, constants.capacity, Kind::VolumePerLength, rec);
    let capacity = rec.take(BoreCapacity { inner_diameter: pipe.inner_diameter() });
    let capacity = by_sheet(capacity, rec);
    let annulus_capacity = rec.take(ring);
    let annulus_capacity = by_sheet(annulus_capacity, rec);
    let output = pump_output(scene, &mut Off).map(|exact| exact * constants.output);
    let way = |wet: bool, rec: &mut R| {
        rec.note(|| if wet { "pulled wet".to_owned() } else { "pulled dry".to_owned() });
        let bore = if wet { capacity } else { 0.0 };
        let volume = rec.take(PulledVolume { stands: 1.0, stand, displacement, capacity: bore });
        let falls_in = if wet { annulus_capacity } else { annulus_capacity + capacity };
        let fall = rec.take(LevelDrop { volume, capacity: falls_in });
        let drop = if wet {
            rec.take(PressureDropWet { volume, mud_weight, annulus_capacity, gravity })
        } else {
            rec.take(PressureDropDry { volume, mud_weight, annulus_capacity, capacity, gravity })
        };
        let before = rec.take(StandsBeforeFill { allowed: ALLOWED_FALL, per_stand: drop });
        let strokes = output.map(|pump_output| rec.take(KillStrokes { volume, pump_output }));
        Way { volume, strokes, fall, drop, before: before.floor().min(most) }
    };
    let (dry, wet) = (way(false, rec), way(true, rec));
    Some(Fill { name: pipe.name().to_owned(), each, length: stand, displacement, capacity, dry, wet })
}

/// Every kind of pipe of a section: drill pipe, heavy-weight pipe, collars, and the casing at its end.
pub(crate) fn kinds<R: Recorder>(scene: &Scene, constants: &Constants, rec: &mut R) -> Vec<Fill> {
    let fit: &Fit = scene.fit();
    if fit.open_to_sea(scene.situation.section).is_some() {
        // The sea keeps the hole full.
        return Vec::new();
    }
    let section = &fit.well.sections[scene.situation.section];
    let of_note = [PartKind::DrillPipe, PartKind::HeavyWeight, PartKind::Collar];
    let parts = section.string.iter().rev().filter(|part| of_note.contains(&part.kind)).map(Pipe::Part);
    let all = parts.chain(section.casing.as_ref().map(Pipe::Casing));
    all.filter_map(|pipe| fill(scene, pipe, constants, rec)).collect()
}
