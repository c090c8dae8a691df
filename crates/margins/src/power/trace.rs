//! Power against time through one stand of a trip, one joint of casing or one connection, and through a whole trip.
//!
//! Between its points a trace is straight: a block that speeds up steadily draws power in proportion to its speed. Two points
//! may stand at one time, where the draw jumps. Lowering is braked and draws nothing.

use super::load::{Load, drawworks, drive, pumps, travelling_weight};
use crate::hoisting::tackle;
use crate::{Basis, Scene, sweep};
use rigwright_physics::hoisting::{
    BlockSpeedByPower, DrawworksPower, HookLoad, InertiaLoad, StandTime, Tackle, TackleEfficiency,
};
use rigwright_physics::power::drives::CREEP;
use rigwright_physics::{Kind, Off, Recorder, STANDARD_GRAVITY};
use rigwright_well::{Fit, MotorCurrent, Operation, Situation};

/// Slowest block speed that a time is told for. [m/s]
const SLOWEST: f64 = 1e-3;

/// What the crew does at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// On bottom, pumping and turning.
    Drilling,
    /// Lifting the string off bottom, still pumping and turning.
    OffBottom,
    /// Lifting the string out of the slips and up a stand.
    LiftingString,
    /// String in slips, nothing moves.
    InSlips,
    /// Raising the empty block.
    RaisingBlock,
    /// Lowering the empty block or the string.
    Lowering,
    /// Pumps and drive on again, going back to bottom.
    ToBottom,
}

impl Phase {
    /// In plain words, after "while".
    pub const fn words(self) -> &'static str {
        match self {
            Phase::Drilling => "drilling",
            Phase::OffBottom => "lifting the string off bottom, pumping and turning",
            Phase::LiftingString => "lifting the string",
            Phase::InSlips => "the string is in slips",
            Phase::RaisingBlock => "raising the empty block",
            Phase::Lowering => "lowering",
            Phase::ToBottom => "going back to bottom, pumping and turning",
        }
    }
}

/// A moment of a trace.
#[derive(Clone, Copy, Debug)]
pub struct TracePoint {
    /// Time since the start. [s]
    pub time: f64,
    /// What the crew does.
    pub phase: Phase,
    /// Measured depth of the bit or shoe. [m]
    pub bit_depth: f64,
    /// What the consumers draw.
    pub load: Load,
}

/// Power against time.
#[derive(Clone, Debug, Default)]
pub struct PowerTrace {
    /// Moments in order; straight between them.
    pub points: Vec<TracePoint>,
}

impl PowerTrace {
    /// The moment of the largest power; the first of equals.
    pub fn peak(&self) -> Option<&TracePoint> {
        self.points.iter().reduce(|most, next| if next.load.total() > most.load.total() { next } else { most })
    }

    /// The moment of the largest apparent power; the first of equals. With direct current it may be another.
    pub fn apparent_peak(&self, fit: &Fit) -> Option<&TracePoint> {
        // Otherwise the power factor hardly changes, and both peaks are one.
        if fit.rig.drives.current == MotorCurrent::Alternating || fit.rig.sets.power_factor.is_some() {
            return self.peak();
        }
        let apparent = |point: &TracePoint| point.load.at_bus(fit, &mut Off).apparent_power;
        let with = self.points.iter().map(|point| (apparent(point), point));
        with.reduce(|most, next| if next.0 > most.0 { next } else { most }).map(|(_, point)| point)
    }

    /// How long it is. [s]
    pub fn duration(&self) -> f64 {
        self.points.last().map_or(0.0, |last| last.time)
    }

    /// Straight pieces: time, power at the start and at the end. [s, W, W]
    pub fn pieces(&self) -> impl Iterator<Item = (f64, f64, f64)> {
        let piece = |pair: &[TracePoint]| match pair {
            [from, to] => Some((to.time - from.time, from.load.total(), to.load.total())),
            _ => None,
        };
        self.points.windows(2).filter_map(piece).filter(|(time, ..)| *time > 0.0)
    }

    /// Energy from the bus. [J]
    pub fn energy(&self) -> f64 {
        self.pieces().map(|(time, from, to)| 0.5 * (from + to) * time).sum()
    }

    /// Puts another trace behind this one.
    fn append(&mut self, other: PowerTrace) {
        let start = self.duration();
        self.points.extend(other.points.into_iter().map(|point| TracePoint { time: start + point.time, ..point }));
    }

    /// Writes down the points.
    pub(super) fn show<R: Recorder>(&self, rec: &mut R) {
        const COLUMNS: &[(&str, Kind)] = &[
            ("time", Kind::Time),
            ("mud pumps", Kind::Power),
            ("rotary drive", Kind::Power),
            ("drawworks", Kind::Power),
            ("auxiliaries, hotel, thrusters", Kind::Power),
            ("all together", Kind::Power),
        ];
        rec.table("power against time, straight between the rows", COLUMNS, || {
            let row = |point: &TracePoint| {
                let Load { pumps, drive, drawworks, auxiliary, hotel, station } = point.load;
                let rest = auxiliary.power + hotel.power + station.power;
                vec![point.time, pumps.power, drive.power, drawworks.power, rest, point.load.total()]
            };
            self.points.iter().map(row).collect()
        });
    }
}

/// The trace of the stand, joint or connection of a situation; `None` where the load is steady. The error is the entry
/// without which it is not known.
pub fn cycle<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<Result<PowerTrace, &'static str>> {
    match scene.situation.operation {
        Operation::PullingOut => Some(Ok(stand_out(scene, rec))),
        Operation::RunningIn | Operation::RunningCasing => Some(Ok(length_in(scene, rec))),
        Operation::Connection => Some(connection(scene, rec)),
        Operation::Drilling | Operation::Circulating | Operation::ShutIn => None,
    }
}

/// The trace of a whole trip of a section, stand by stand or joint by joint: out from its end, or in to its end; casing to
/// its shoe. Empty for an operation that is no trip.
pub fn trip(basis: &Basis, section: usize, operation: Operation) -> PowerTrace {
    let fit = basis.fit;
    let this = &fit.well.sections[section];
    let mut trace = PowerTrace::default();
    let (length, to) = match operation {
        Operation::PullingOut | Operation::RunningIn => (fit.rig.mast.stand, this.bottom),
        Operation::RunningCasing => match &*this.casing {
            Some(casing) => (casing.joint_length, casing.shoe),
            None => return trace,
        },
        _ => return trace,
    };
    let count = (to / length).ceil() as usize;
    let depths = (1..=count).map(|index| (index as f64 * length).min(to));
    let depths: Vec<f64> = if operation == Operation::PullingOut { depths.rev().collect() } else { depths.collect() };
    for depth in depths {
        let scene = Scene::new(basis, sweep::situation(fit, section, operation, this.bottom, depth));
        if let Some(Ok(stand)) = cycle(&scene, &mut Off) {
            trace.append(stand);
        }
    }
    trace
}

/// Load on the hook while the string of a scene moves. [N]
fn hook_load<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let string_load = scene.drag(rec).surface_tension;
    let travelling_weight = travelling_weight(scene.fit(), rec);
    rec.take(HookLoad { string_load, travelling_weight }).max(0.0)
}

fn stand_out<R: Recorder>(scene: &Scene, rec: &mut R) -> PowerTrace {
    let rig = &scene.fit().rig;
    let mut run = Run::new(scene);
    let hook_load = hook_load(scene, rec);
    rec.heading("lifting the string");
    let idle = Load::idle(scene.fit());
    let lift = Lift { hook_load, way: rig.mast.stand, hole_speed: scene.situation.pipe_speed };
    run.lift(Phase::LiftingString, lift, idle, rec);
    run.hold(Phase::InSlips, scene.section().tripping.connection_time, idle);
    run.lower(rig.mast.stand, f64::INFINITY, idle, rec);
    run.trace
}

fn length_in<R: Recorder>(scene: &Scene, rec: &mut R) -> PowerTrace {
    let fit = scene.fit();
    let rig = &fit.rig;
    let casing = scene.section().casing.as_ref().filter(|_| scene.situation.operation == Operation::RunningCasing);
    let (way, in_slips) = match casing {
        Some(casing) => (casing.joint_length, casing.joint_time),
        None => (rig.mast.stand, scene.section().tripping.connection_time),
    };
    let mut run = Run::new(scene);
    let hook_load = travelling_weight(fit, rec);
    rec.heading("raising the empty block");
    let idle = Load::idle(fit);
    run.lift(Phase::RaisingBlock, Lift { hook_load, way, hole_speed: f64::INFINITY }, idle, rec);
    run.hold(Phase::InSlips, in_slips, idle);
    run.lower(way, scene.situation.pipe_speed, idle, rec);
    run.trace
}

fn connection<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<PowerTrace, &'static str> {
    let fit = scene.fit();
    let rig = &fit.rig;
    let at = |operation| {
        let situation = &scene.situation;
        let other = sweep::situation(fit, situation.section, operation, situation.hole_depth, situation.bit_depth);
        scene.with_same_pipe(other)
    };
    let idle = Load::idle(fit);
    let turning = at(Operation::Circulating);
    let (pumps, auxiliary) = pumps(&turning, rec)?;
    let off_bottom = Load { pumps, auxiliary, drive: drive(&turning, rec), ..idle };
    let mut run = Run::new(scene);
    let hook_load = hook_load(&turning, rec);
    rec.heading("lifting the string off bottom");
    let hole_speed = scene.section().drilling.off_bottom_speed;
    run.lift(Phase::OffBottom, Lift { hook_load, way: scene.section().drilling.off_bottom, hole_speed }, off_bottom, rec);
    let travelling_weight = travelling_weight(fit, rec);
    rec.heading("raising the empty block");
    let raise = Lift { hook_load: travelling_weight, way: rig.mast.stand, hole_speed: f64::INFINITY };
    let before = run.clock;
    run.lift(Phase::RaisingBlock, raise, idle, rec);
    // The block goes up while the string is in slips.
    run.hold(Phase::InSlips, (scene.section().drilling.connection_time - (run.clock - before)).max(0.0), idle);
    let back = StandTime {
        stand: scene.section().drilling.off_bottom,
        block_speed: hole_speed.max(SLOWEST),
        acceleration: *rig.drawworks.acceleration,
    };
    run.hold(Phase::ToBottom, rec.take(back), off_bottom);
    Ok(run.trace)
}

/// A way of the block under a load.
#[derive(Clone, Copy)]
struct Lift {
    /// [N]
    hook_load: f64,
    /// [m]
    way: f64,
    /// Largest speed that the hole allows. [m/s]
    hole_speed: f64,
}

/// More moments than the trace of one stand has.
const MOMENTS: usize = 20;

/// A trace in the making.
struct Run<'a> {
    fit: &'a Fit,
    tackle: Tackle,
    /// Greatest speed of the block with the lines strung. [m/s]
    block_speed: f64,
    bit_depth: f64,
    clock: f64,
    trace: PowerTrace,
}

impl<'a> Run<'a> {
    fn new(scene: &Scene<'a>) -> Run<'a> {
        let Situation { section, operation, bit_depth, .. } = scene.situation;
        let block_speed = scene.fit().block_speed(section, operation);
        let trace = PowerTrace { points: Vec::with_capacity(MOMENTS) };
        Run { fit: scene.fit(), tackle: tackle(scene), block_speed, bit_depth, clock: 0.0, trace }
    }

    fn point(&mut self, phase: Phase, load: Load) {
        self.trace.points.push(TracePoint { time: self.clock, phase, bit_depth: self.bit_depth, load });
    }

    fn hold(&mut self, phase: Phase, time: f64, load: Load) {
        self.point(phase, load);
        self.clock += time;
        self.point(phase, load);
    }

    /// Lowers over a way: the brake holds, the drawworks draw nothing.
    fn lower<R: Recorder>(&mut self, way: f64, hole_speed: f64, base: Load, rec: &mut R) {
        let drawworks = &self.fit.rig.drawworks;
        let block_speed = self.block_speed.min(hole_speed).max(SLOWEST);
        let time = rec.take(StandTime { stand: way, block_speed, acceleration: *drawworks.acceleration });
        self.hold(Phase::Lowering, time, base);
    }

    /// Lifts a load over a way from rest to rest, on top of what draws anyway.
    fn lift<R: Recorder>(&mut self, phase: Phase, lift: Lift, base: Load, rec: &mut R) {
        let (fit, rig) = (self.fit, &self.fit.rig.drawworks);
        let Lift { hook_load, way, hole_speed } = lift;
        let (acceleration, drum_efficiency) = (*rig.acceleration, rig.efficiency);
        let Tackle { lines, sheave_factor } = self.tackle;
        let tackle_efficiency = rec.take(TackleEfficiency { lines, sheave_factor });
        let by_power = BlockSpeedByPower { power: rig.power, tackle_efficiency, drum_efficiency, hook_load: hook_load.max(1.0) };
        let allowed = rec.take(by_power).min(self.block_speed).min(hole_speed);
        // A way too short for that speed is gone up at half of it and slowed down over the other half.
        let block_speed = allowed.min((way * acceleration).sqrt()).max(SLOWEST);
        rec.given("largest speed of the block on this way", block_speed, Kind::Speed);
        let speeding = rec.take(InertiaLoad { hook_load, acceleration, gravity: STANDARD_GRAVITY });
        let slowing = (hook_load * (1.0 - acceleration / STANDARD_GRAVITY)).max(0.0);
        let shaft = |hook_load: f64| DrawworksPower { hook_load, block_speed, tackle_efficiency, drum_efficiency };
        // The nameplate is never passed: near full speed the block speeds up more slowly instead.
        let most = rec.take(shaft(speeding)).min(rig.power);
        rec.given("largest draw of the drawworks at their input, no more than their power", most, Kind::Power);
        let steady = rec.take(shaft(hook_load)).min(rig.power);
        let slow = shaft(slowing);
        let slow = rigwright_physics::Formula::value(&slow).min(rig.power);
        let with = |power: f64, share: f64| Load { drawworks: drawworks(fit, power, share, &mut Off), ..base };
        let ramp = block_speed / acceleration;
        let whole = rec.take(StandTime { stand: way, block_speed, acceleration });
        let at_speed = (whole - 2.0 * ramp).max(0.0);
        self.point(phase, with(CREEP * most, CREEP));
        self.clock += ramp;
        self.point(phase, with(most, 1.0));
        if at_speed > 0.0 {
            self.point(phase, with(steady, 1.0));
            self.clock += at_speed;
            self.point(phase, with(steady, 1.0));
        }
        self.point(phase, with(slow, 1.0));
        self.clock += ramp;
        self.point(phase, with(0.0, CREEP));
    }
}
