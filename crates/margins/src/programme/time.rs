//! How long a job takes: trips stand by stand from power, speeds of block and line, brakes and swab; drilling from the rate
//! of penetration and its connections.

use super::along::Along;
use super::{Job, Step};
use crate::circulating::annular_volume;
use crate::fields::PerSection;
use crate::hoisting::tackle;
use crate::{Basis, Scene, sweep};
use rigwright_physics::circulating::passage::LagTime;
use rigwright_physics::hoisting::{Hoist, StandTime, TravellingWeight, TripStand, TripTime, TripWay};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{Fit, Operation, Parts, Situation, note, noted};
use std::cell::RefCell;

/// A trip of drill string or casing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Trip {
    /// Pulling out, running in or running casing.
    pub(crate) operation: Operation,
    /// What the line is strung for: a liner goes in on pipe with its own lines.
    pub(crate) rigged_for: Operation,
    /// Measured depths of the bit or shoe between which it goes; the upper first. [m]
    pub(crate) between: (f64, f64),
    /// Measured depth of the hole. [m]
    pub(crate) hole: f64,
}

/// The time of a trip, and what slowed it down.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TripTold {
    /// Its time.
    pub(crate) time: TripTime,
    /// Stands or joints that swab or surge slows down below the speed given.
    pub(crate) slowed: usize,
    /// Stands or joints at which no speed is safe: counted at the speed given.
    pub(crate) unsafe_stands: usize,
}

/// Trips of a fit that are known, with their sections: short trips are alike, and several questions read the same one. And what
/// they meet along the hole on their way out, in, and in with casing.
pub(crate) struct Trips {
    known: RefCell<Vec<KnownTrip>>,
    along: [PerSection<Along>; 3],
}

#[derive(Clone, Copy)]
struct KnownTrip {
    section: usize,
    trip: Trip,
    told: TripTold,
    stands_on: Parts,
}

impl Trips {
    /// Of a well with so many sections; nothing is known yet.
    pub(crate) fn new(sections: usize) -> Trips {
        Trips { known: RefCell::default(), along: std::array::from_fn(|_| PerSection::new(sections)) }
    }

    /// What trips of a section meet along the hole.
    fn along(&self, basis: &Basis, section: usize, operation: Operation) -> &Along {
        let way = match operation {
            Operation::PullingOut => 0,
            Operation::RunningCasing => 2,
            _ => 1,
        };
        self.along[way].get(section, || Along::new(basis, section, operation))
    }

    /// A trip that is worked out at the first call.
    fn told(&self, section: usize, trip: &Trip, work_out: impl FnOnce() -> TripTold) -> TripTold {
        let same = |known: &&KnownTrip| known.section == section && known.trip == *trip;
        let known = self.known.borrow().iter().find(same).copied();
        let known = known.unwrap_or_else(|| {
            let (told, stands_on) = noted(work_out);
            let known = KnownTrip { section, trip: *trip, told, stands_on };
            self.known.borrow_mut().push(known);
            known
        });
        note(known.stands_on);
        known.told
    }
}

/// How the rig moves the block with the lines of a scene.
pub(super) fn hoist<R: Recorder>(scene: &Scene, connection: f64, rec: &mut R) -> Hoist {
    let (rig, drawworks) = (&scene.fit().rig, &scene.fit().rig.drawworks);
    let tackle = tackle(scene);
    let block_speed = scene.fit().block_speed(scene.situation.section, scene.situation.operation);
    Hoist {
        power: drawworks.power,
        tackle_efficiency: tackle.efficiency(rec),
        drum_efficiency: drawworks.efficiency,
        line_speed: block_speed * tackle.lines,
        lines: tackle.lines,
        acceleration: *drawworks.acceleration,
        deceleration: *drawworks.acceleration,
        brake_power: *drawworks.brake_power,
        travelling_weight: rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight }),
        connection,
    }
}

/// Lower ends of the stands of a trip with their lengths, the deepest first.
pub(super) fn stands((top, bottom): (f64, f64), length: f64) -> Vec<(f64, f64)> {
    let count = ((bottom - top) / length - 1e-9).ceil().max(0.0) as usize;
    (0..count)
        .map(|index| {
            let depth = bottom - index as f64 * length;
            (depth, length.min(depth - top))
        })
        .collect()
}

/// A trip of a section, stand by stand or joint by joint.
pub(crate) fn trip<R: Recorder>(basis: &Basis, section: usize, trip: &Trip, rec: &mut R) -> TripTold {
    if R::ON {
        by_stand(basis, section, trip, rec)
    } else {
        basis.trips.told(section, trip, || by_stand(basis, section, trip, &mut Off))
    }
}

fn by_stand<R: Recorder>(basis: &Basis, section: usize, trip: &Trip, rec: &mut R) -> TripTold {
    let fit = basis.fit;
    let this = &fit.well.sections[section];
    let (length, connection) = match (&*this.casing, trip.operation) {
        (Some(casing), Operation::RunningCasing) => (casing.joint_length, casing.joint_time),
        _ => (fit.rig.mast.stand, this.tripping.connection_time),
    };
    let mut lengths = stands(trip.between, length);
    let out = trip.operation == Operation::PullingOut;
    if !out {
        lengths.reverse();
    }
    let going = sweep::situation(fit, section, trip.operation, trip.hole, trip.between.1);
    let given = going.pipe_speed;
    let along = basis.trips.along(basis, section, trip.operation);
    let (mut slowed, mut unsafe_stands) = (0, 0);
    let stands: Vec<TripStand> = lengths
        .iter()
        .map(|(bit_depth, length)| {
            let safe = along.speed(*bit_depth).unwrap_or(given);
            unsafe_stands += usize::from(safe <= 0.0);
            slowed += usize::from(safe > 0.0 && safe < given);
            let hole_speed = if safe > 0.0 { safe } else { given };
            TripStand { bit_depth: *bit_depth, length: *length, string_load: along.load(*bit_depth), hole_speed }
        })
        .collect();
    rec.given("speed wanted, mean over a stand or joint", given, Kind::Speed);
    rec.given("time in slips for each", connection, Kind::Time);
    let way = if out { TripWay::Out } else { TripWay::In };
    let lines_of = Situation { operation: trip.rigged_for, ..going };
    let hoist = hoist(&Scene::new(basis, lines_of), connection, rec);
    TripTold { time: hoist.trip(&stands, way, rec), slowed, unsafe_stands }
}

/// How long a job takes. [s]
pub(crate) fn of<R: Recorder>(basis: &Basis, step: &Step, rec: &mut R) -> f64 {
    let Step { section, job, from, to, hole, .. } = *step;
    let fit = basis.fit;
    let this = &fit.well.sections[section];
    let stand = fit.rig.mast.stand;
    let between = (from.min(to), from.max(to));
    let rigged = |operation, rigged_for, between, rec: &mut R| {
        trip(basis, section, &Trip { operation, rigged_for, between, hole }, rec).time.total()
    };
    let go = |operation, between, rec: &mut R| rigged(operation, operation, between, rec);
    match job {
        Job::RunIn => go(Operation::RunningIn, between, rec),
        Job::PullOut => go(Operation::PullingOut, between, rec),
        Job::RunCasing => {
            let Some(casing) = &*this.casing else { return 0.0 };
            // A liner goes in on drill pipe: joints first, stands after them.
            let length = casing.shoe - casing.top;
            let joints = go(Operation::RunningCasing, (0.0, length), rec);
            if casing.top <= 0.0 {
                joints
            } else {
                joints + rigged(Operation::RunningIn, Operation::RunningCasing, (length, casing.shoe), rec)
            }
        }
        Job::Drill | Job::Core => {
            let drilled = between.1 - between.0;
            rec.given("length drilled", drilled, Kind::Depth);
            rec.given("rate of penetration", this.drilling.penetration_rate, Kind::DrillingRate);
            drilled / this.drilling.penetration_rate + drilled / stand * connection(fit, section, rec)
        }
        Job::Circulate => bottoms_up(basis, section, hole, rec),
        Job::Flat => this.casing.as_ref().map_or(0.0, |casing| casing.flat_time),
    }
}

/// Time that each stand costs while it is drilled: off bottom and back, the connection itself, reaming. [s]
pub(crate) fn connection<R: Recorder>(fit: &Fit, section: usize, rec: &mut R) -> f64 {
    let (drilling, acceleration) = (&fit.well.sections[section].drilling, *fit.rig.drawworks.acceleration);
    let mut move_time = |stand: f64, block_speed: f64| rec.take(StandTime { stand, block_speed, acceleration });
    let off_bottom = 2.0 * move_time(drilling.off_bottom, drilling.off_bottom_speed);
    let reaming = ream_time(fit, section, &mut move_time);
    rec.given("time to add a stand", drilling.connection_time, Kind::Time);
    off_bottom + reaming + drilling.connection_time
}

/// Time to ream a stand up and down as often as the plan says. [s]
fn ream_time(fit: &Fit, section: usize, move_time: &mut impl FnMut(f64, f64) -> f64) -> f64 {
    let drilling = &fit.well.sections[section].drilling;
    if drilling.reamed == 0 {
        return 0.0;
    }
    2.0 * f64::from(drilling.reamed) * move_time(fit.rig.mast.stand, drilling.reaming_speed)
}

/// Time to ream a whole length, without connections. [s]
pub(crate) fn reaming(fit: &Fit, section: usize, length: f64) -> f64 {
    let acceleration = *fit.rig.drawworks.acceleration;
    let mut move_time = |stand: f64, block_speed: f64| StandTime { stand, block_speed, acceleration }.value();
    length / fit.rig.mast.stand * ream_time(fit, section, &mut move_time)
}

/// Time until what was at the bottom is at surface; none without pumps. [s]
pub(crate) fn bottoms_up<R: Recorder>(basis: &Basis, section: usize, hole: f64, rec: &mut R) -> f64 {
    let scene = Scene::new(basis, sweep::situation(basis.fit, section, Operation::Circulating, hole, hole));
    let flow_rate = scene.situation.flow_rate;
    if flow_rate <= 0.0 {
        return 0.0;
    }
    let volume = annular_volume(&scene, rec);
    rec.take(LagTime { volume, flow_rate })
}
