//! The rig: nameplates and what is fitted today.

use crate::{
    Crossover, Diverter, Emergency, LargestMotor, Riser, RotatingSeal, SafetyValve, Separator, Sets, ShearTest, Watched,
};
pub use rigwright_physics::circulating::surface::SurfaceCombination;
pub use rigwright_physics::power::drives::{DriveChain, MotorCurrent};

/// A checked rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// Name of the rig.
    pub name: String,
    /// Mast and floor.
    pub mast: Watched<Mast>,
    /// Crown block.
    pub crown: Watched<Crown>,
    /// Travelling block with hook.
    pub block: Watched<Block>,
    /// Load that the elevators bear. [N]
    pub elevators: Option<f64>,
    /// Load that the elevators for casing bear; `None` for those of the rig. [N]
    pub casing_elevators: Option<f64>,
    /// Tongs for string and casing.
    pub tongs: Watched<Tongs>,
    /// Slips of the rotary table.
    pub slips: Watched<Slips>,
    /// Drawworks.
    pub drawworks: Watched<Drawworks>,
    /// Drilling line.
    pub line: Watched<Line>,
    /// Line that raises the mast.
    pub raising_line: Watched<RaisingLine>,
    /// Rotary table or top drive.
    pub drive: Watched<Drive>,
    /// Mud pumps, all alike.
    pub pump: Watched<Pump>,
    /// Standpipe, hose, swivel and kelly.
    pub surface_lines: Watched<SurfaceLines>,
    /// Pits and stocks.
    pub pits: Watched<Pits>,
    /// Drives of pumps, drawworks and string.
    pub drives: Watched<Drives>,
    /// Return line and shakers.
    pub returns: Watched<Returns>,
    /// Generator sets and what they feed.
    pub sets: Watched<Sets>,
    /// Largest motor that starts without a drive.
    pub largest_motor: Option<LargestMotor>,
    /// Emergency set.
    pub emergency: Watched<Emergency>,
    /// Preventers from the top down.
    pub stack: Watched<Vec<Preventer>>,
    /// Working pressure of the wellhead. [Pa]
    pub wellhead_rating: Option<f64>,
    /// Working pressure of the choke manifold. [Pa]
    pub manifold_rating: Option<f64>,
    /// Working pressure of the hose or line between preventers and choke manifold. [Pa]
    pub choke_hose_rating: Option<f64>,
    /// Accumulator unit.
    pub accumulator: Watched<Option<Accumulator>>,
    /// Rotating seal, where one is fitted.
    pub rotating_seal: RotatingSeal,
    /// Working pressure of the choke that holds back pressure. [Pa]
    pub managed_choke: Option<f64>,
    /// Riser of a floating rig, with the lines along it.
    pub riser: Option<Riser>,
    /// Largest bore of the chokes of the manifold. [m]
    pub choke_bore: Option<f64>,
    /// Separator of mud and gas, where there is one.
    pub separator: Option<Separator>,
    /// Diverter for shallow gas, where there is one.
    pub diverter: Option<Diverter>,
    /// Valves for the string, at the floor.
    pub safety_valves: Vec<SafetyValve>,
    /// Subs from one connection to another.
    pub crossovers: Vec<Crossover>,
    /// Whether the wellhead is made for sour service.
    pub wellhead_sour: Option<bool>,
    /// Whether the choke manifold is made for sour service.
    pub manifold_sour: Option<bool>,
}

/// Mast and floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Mast {
    /// Rated static hook load by lines strung, ascending by lines: (lines, load). [N]
    pub hook_load: Vec<(u32, f64)>,
    /// Length of a stand. [m]
    pub stand: f64,
    /// Room for stands in the fingerboard.
    pub racking: Option<u32>,
    /// Load that the setback bears. [N]
    pub setback: Option<f64>,
    /// Load on the rotary table that the substructure bears together with a full setback. [N]
    pub rotary_load: Option<f64>,
    /// Load that one leg bears. [N]
    pub leg_rating: Option<f64>,
    /// Height from the floor to the crown that is free for the block. [m]
    pub clear_height: Option<f64>,
}

impl Mast {
    /// The rating for this many lines; never carried over from another string-up.
    pub fn rating(&self, lines: u32) -> Option<f64> {
        self.hook_load.iter().find(|(strung, _)| *strung == lines).map(|(_, load)| *load)
    }
}

/// Crown block.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crown {
    /// Number of sheaves, the fast-line sheave included.
    pub sheaves: u32,
    /// Load that it bears: hook, fast and dead line together. [N]
    pub rating: Option<f64>,
    /// Its own weight. [N]
    pub weight: Option<f64>,
}

/// Travelling block with hook or top drive hung in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// Number of sheaves.
    pub sheaves: u32,
    /// Load that the block bears. [N]
    pub rating: Option<f64>,
    /// Weight of block and hook, without the top drive. [N]
    pub weight: f64,
    /// Load that the hook bears. [N]
    pub hook_rating: Option<f64>,
    /// From the top of the block to where the pipe hangs in the elevators: hook or top drive and links included. [m]
    pub length: Option<f64>,
}

/// Slips that hold the string in the rotary table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slips {
    /// Load that they bear. [N]
    pub rating: Option<f64>,
    /// Load that the spider for casing bears. [N]
    pub casing_rating: Option<f64>,
    /// Length of pipe that they hold. [m]
    pub length: Option<f64>,
    /// Friction between slips and bowl. [-]
    pub friction: f64,
}

/// What makes up and breaks out the connections.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tongs {
    /// Torque that they bear, or that their pull gives, on the drill string. [N·m]
    pub torque: Option<f64>,
    /// Torque of the tong for casing. [N·m]
    pub casing_torque: Option<f64>,
}

/// Drawworks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drawworks {
    /// Input power. [W]
    pub power: f64,
    /// Largest pull on the fast line. [N]
    pub line_pull: Watched<f64>,
    /// Share of input power that reaches the drum. [-]
    pub efficiency: f64,
    /// Mean block speed wanted while pulling heavy. [m/s]
    pub hoisting_speed: Watched<f64>,
    /// Greatest speed of the block. [m/s]
    pub block_speed: Watched<f64>,
    /// How fast the block speeds up and slows down. [m/s²]
    pub acceleration: Watched<f64>,
    /// Power that the brakes take up for as long as it lasts. [W]
    pub brake_power: Watched<Option<f64>>,
    /// Torque that the brakes hold on the drum. [N·m]
    pub brake_torque: Watched<Option<f64>>,
    /// Diameter of the bare drum. [m]
    pub drum: Option<f64>,
    /// Wraps of line on a full layer. [-]
    pub wraps: Option<f64>,
    /// Wraps that stay on the drum with the block at its lowest. [-]
    pub dead_wraps: f64,
}

/// Drives of pumps, drawworks and string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drives {
    /// Kind of all of them.
    pub current: MotorCurrent,
    /// Efficiencies from the bus to the shaft of a pump or of the rotary drive. The gear of the drawworks counts with the drawworks.
    pub chain: DriveChain,
}

/// Drilling line and how it is strung.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Diameter. [m]
    pub diameter: f64,
    /// Nominal strength, from the certificate. [N]
    pub strength: f64,
    /// Lines strung between the blocks.
    pub strung: u32,
    /// Tension ratio at a turning sheave. [-]
    pub sheave_factor: f64,
    /// Smallest design factor for drilling and tripping. [-]
    pub design_factor: f64,
    /// Smallest design factor for running casing and for overpull. [-]
    pub casing_design_factor: f64,
    /// Pull that the anchor of the dead line bears. [N]
    pub anchor_rating: Option<f64>,
    /// Line work after which a length is slipped and cut, by the rig's own rule. [J]
    pub cut_work: Option<f64>,
    /// Line work since the last cut. [J]
    pub work_since_cut: Option<f64>,
    /// Times that the line is slipped, without cutting, between two cuts.
    pub slips: u32,
    /// Line work that a length may do, over the same at a design factor of 5. [-]
    pub service_factor: f64,
    /// Line left on the storage reel. [m]
    pub on_reel: Option<f64>,
}

/// Line that raises the mast, and what pulls on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RaisingLine {
    /// Nominal strength of the line, or of all its parts together. [N]
    pub strength: Option<f64>,
    /// Largest pull while the mast is raised, from the maker's sheet. [N]
    pub pull: Option<f64>,
    /// Smallest design factor. [-]
    pub design_factor: f64,
}

/// What turns the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drive {
    /// Rotary table or top drive.
    pub kind: DriveKind,
    /// Continuous torque up to the base speed. [N·m]
    pub torque: f64,
    /// Largest speed. [rad/s]
    pub speed: f64,
    /// Output power. [W]
    pub power: f64,
    /// Weight hung in the block; zero for a rotary table. [N]
    pub weight: f64,
    /// Load that a top drive bears. [N]
    pub rating: Option<f64>,
}

/// Rotary table or top drive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DriveKind {
    /// Rotary table with kelly.
    RotaryTable,
    /// Top drive.
    TopDrive,
}

/// Mud pumps, all alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Pump {
    /// How it pumps.
    pub kind: PumpKind,
    /// Number of pumps.
    pub number: usize,
    /// Stroke. [m]
    pub stroke: f64,
    /// Rod diameter; only a duplex needs it. [m]
    pub rod: Option<f64>,
    /// Liners to choose from, by diameter.
    pub liners: Vec<Liner>,
    /// Largest pump speed. [1/s]
    pub speed: f64,
    /// Input power of one pump. [W]
    pub power: f64,
    /// Real output over swept volume. [-]
    pub volumetric_efficiency: f64,
    /// Hydraulic power over input power. [-]
    pub mechanical_efficiency: f64,
}

impl Pump {
    /// The liner of this diameter.
    pub fn liner(&self, diameter: f64) -> Option<&Liner> {
        self.liners.iter().find(|liner| (liner.diameter - diameter).abs() < 1e-6)
    }
}

/// How a pump pumps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PumpKind {
    /// Three cylinders, single acting.
    Triplex,
    /// Two cylinders, double acting.
    Duplex,
}

/// A liner and the pressure that it bears.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Liner {
    /// Diameter. [m]
    pub diameter: f64,
    /// Pressure rating. [Pa]
    pub rating: f64,
}

/// Standpipe, hose, swivel and kelly or top drive as one equivalent pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfaceLines {
    /// What the mud goes through.
    pub way: SurfaceWay,
    /// Pressure rating. [Pa]
    pub rating: Option<f64>,
}

impl SurfaceLines {
    /// Length and inside diameter of each pipe in them. [m]
    pub fn pipes(&self) -> Vec<(f64, f64)> {
        match self.way {
            SurfaceWay::Pipe { length, inner_diameter } => vec![(length, inner_diameter)],
            SurfaceWay::Combination(combination) => combination.parts().to_vec(),
        }
    }
}

/// What the mud goes through between pump and string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SurfaceWay {
    /// Standpipe, hose, swivel and kelly or top drive as one pipe.
    Pipe {
        /// Length. [m]
        length: f64,
        /// Inside diameter. [m]
        inner_diameter: f64,
    },
    /// One of the four combinations of surface equipment.
    Combination(SurfaceCombination),
}

/// Pits and stocks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pits {
    /// Active volume. [m³]
    pub active: Option<f64>,
    /// Mud in reserve. [m³]
    pub reserve: Option<f64>,
    /// Weight of the mud in reserve. [kg/m³]
    pub reserve_weight: Option<f64>,
    /// Barite on site. [kg]
    pub barite: Option<f64>,
    /// Fuel on site. [m³]
    pub fuel: Option<f64>,
    /// Time until the next delivery. [s]
    pub resupply: Option<f64>,
    /// All pits filled to the brim. [m³]
    pub capacity: Option<f64>,
    /// What runs back into the pits when the pumps stop: flowline and lines above the pits. [m³]
    pub drain_back: Option<f64>,
    /// Room for waste. [m³]
    pub waste: Option<f64>,
    /// Volume of wet waste over that of the rock drilled. [-]
    pub waste_factor: f64,
    /// Trip tank. [m³]
    pub trip_tank: Option<f64>,
    /// Weight material that the hoppers mix in per time. [kg/s]
    pub mixing_rate: Option<f64>,
}

/// What comes back from the well goes through these.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Returns {
    /// Flow that the return line takes. [m³/s]
    pub line: Option<f64>,
    /// Flow that the shakers take with the screens fitted. [m³/s]
    pub shakers: Option<f64>,
}

/// A preventer.
#[derive(Clone, Debug, PartialEq)]
pub struct Preventer {
    /// Name for print.
    pub name: String,
    /// What it closes with.
    pub kind: PreventerKind,
    /// Working pressure. [Pa]
    pub rating: f64,
    /// Bore. [m]
    pub bore: f64,
    /// Fluid to close it. [m³]
    pub closing_volume: Option<f64>,
    /// Smallest and largest pipe that it closes on, for pipe rams. [m]
    pub closes_on: Option<[f64; 2]>,
    /// Time in which it closes, measured. [s]
    pub closing_time: Option<f64>,
    /// Area of its piston over that of its rod: well pressure over the control pressure that holds against it. [-]
    pub closing_ratio: Option<f64>,
    /// Pipe that it cut in tests.
    pub shear_tests: Vec<ShearTest>,
    /// Whether it is made for sour service.
    pub sour: Option<bool>,
}

/// What a preventer closes with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PreventerKind {
    /// Rubber that closes on anything.
    Annular,
    /// Rams for pipe of one size or a range.
    PipeRam,
    /// Rams for an empty bore.
    BlindRam,
    /// Rams that cut and seal.
    BlindShearRam,
}

/// Accumulator unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accumulator {
    /// Number of bottles.
    pub bottles: u32,
    /// Gas volume of one bottle, empty of fluid. [m³]
    pub bottle_volume: f64,
    /// Precharge, gauge. [Pa]
    pub precharge: f64,
    /// Charged pressure, gauge. [Pa]
    pub charged: f64,
    /// Smallest pressure at which everything still works, gauge. [Pa]
    pub minimum: f64,
    /// Temperature of the bottles. [K]
    pub temperature: f64,
    /// Design factor on the volume wanted: from the edition of the rule that applies. [-]
    pub design_factor: Option<f64>,
    /// Pump systems that charge it.
    pub pumps: Option<u32>,
    /// Flow of one pump system. [m³/s]
    pub pump_rate: Option<f64>,
    /// Coldest that the bottles get. [K]
    pub coldest: Option<f64>,
}
