//! The start of a stand or joint: the gel that grew while it hung in slips is broken, and the mud is sped up with the pipe. Friction at
//! full speed comes later and is looked at elsewhere: the larger of the two counts, not their sum.

use super::window::{Top, worst_mud, worst_rock};
use crate::fields::flow::Flow;
use crate::fields::open_hole::Point;
use crate::fields::surge::moved;
use crate::geometry::Annulus;
use crate::{Answer, Scene};
use rigwright_physics::circulating::surge::{
    BULK_MODULUS, ClosedPipeVelocity, GelBreakAnnulus, GelStrengthAtTime, InertiaPressure, PEAK_FACTOR, PeakSpeed, WaterHammer,
};
use rigwright_physics::circulating::trip::TripStretch;
use rigwright_physics::{Formula, Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Hung, Operation, Situation};

const MOVED_ONLY: Answer = Answer::DoesNotArise("the pipe does not start to move this way");

/// The mud still holds back what it has to when the pipe starts upwards.
pub(super) fn pulling<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::PullingOut {
        return MOVED_ONLY;
    }
    start(scene, false, rec)
}

/// The rock bears the mud when the pipe starts downwards.
pub(super) fn running<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !matches!(scene.situation.operation, Operation::RunningIn | Operation::RunningCasing) {
        return MOVED_ONLY;
    }
    start(scene, true, rec)
}

/// What the start costs down to a depth. [Pa]
#[derive(Clone, Copy, Default)]
struct Cost {
    gel: f64,
    inertia: f64,
    /// The largest.
    wave: f64,
}

impl Cost {
    /// Mud gives way before a long column is sped up at once, so inertia counts up to the pressure of a wave at the peak speed. [Pa]
    fn pressure(self) -> f64 {
        self.gel + self.inertia.min(self.wave)
    }
}

/// What the start takes.
struct Start {
    gel_strength: f64,
    acceleration: f64,
    density: f64,
    down: bool,
}

impl Start {
    /// Of a scene; the entry that is missing else.
    fn of<R: Recorder>(scene: &Scene, down: bool, rec: &mut R) -> Result<Start, &'static str> {
        let section = scene.section();
        let [first, last] = section.mud.gels.ok_or("section[].mud.gels")?;
        let casing = section.casing.as_ref().filter(|_| scene.situation.hung == Hung::Casing);
        let duration = casing.map_or(section.tripping.connection_time, |casing| casing.joint_time).max(10.0);
        rec.heading("gel that grows in slips, and how briskly the pipe starts");
        let gel_strength = rec.take(GelStrengthAtTime { first, last, duration });
        let acceleration = *scene.fit().rig.drawworks.acceleration;
        rec.given("acceleration of the block", acceleration, Kind::Acceleration);
        Ok(Start { gel_strength, acceleration, density: section.mud.weight, down })
    }

    /// Pressure at a depth from starting, as a magnitude: gel and inertia of the annulus above, beside pipe. [Pa]
    fn pressure<R: Recorder>(&self, scene: &Scene, depth: f64, rec: &mut R) -> f64 {
        let pipe_speed = rec.take(PeakSpeed { pipe_speed: scene.situation.pipe_speed, peak_factor: PEAK_FACTOR });
        let mut cost = Cost::default();
        for annulus in scene.annuli().iter().rev().filter(|annulus| annulus.top < depth) {
            cost = self.past((annulus, depth), (scene.situation.bit_depth, pipe_speed), cost, rec);
        }
        rec.given("to break the gel", cost.gel, Kind::Pressure);
        rec.given("to speed up the whole column at once", cost.inertia, Kind::Pressure);
        rec.given("largest pressure of a wave at the peak speed", cost.wave, Kind::Pressure);
        cost.pressure()
    }

    /// What it costs down to a depth in an annulus or to the end of it, of what it costs down to that annulus.
    fn past<R: Recorder>(
        &self,
        (annulus, depth): (&Annulus, f64),
        (bit_depth, pipe_speed): (f64, f64),
        above: Cost,
        rec: &mut R,
    ) -> Cost {
        let Some(moved) = moved(annulus, bit_depth) else { return above };
        let Cost { mut gel, mut inertia, mut wave } = above;
        let length = annulus.bottom.min(depth) - annulus.top;
        rec.stretch(|| "annulus".to_owned(), annulus.top, annulus.top + length);
        for (joints, TripStretch { length, hole_diameter, pipe_diameter, .. }) in moved.along(length).enumerate() {
            if joints > 0 {
                rec.note(|| "past the tool joints, all of them in a row:".to_owned());
            }
            gel += rec.take(GelBreakAnnulus { gel_strength: self.gel_strength, length, hole_diameter, pipe_diameter });
            let (density, pipe_acceleration) = (self.density, self.acceleration);
            inertia += rec.take(InertiaPressure { density, pipe_acceleration, length, hole_diameter, pipe_diameter });
            // A joint is far shorter than a wave: the body makes it.
            if joints == 0 {
                let velocity = rec.take(ClosedPipeVelocity { pipe_speed, hole_diameter, pipe_diameter });
                wave = wave.max(rec.take(WaterHammer { velocity, density, bulk_modulus: BULK_MODULUS }));
            }
        }
        Cost { gel, inertia, wave }
    }

    /// The same pressure at many depths: what is passed whole is added up once. [m] to [Pa]
    fn pressures<'a>(&'a self, scene: &'a Scene) -> impl Fn(f64) -> f64 + 'a {
        let pipe_speed = PeakSpeed { pipe_speed: scene.situation.pipe_speed, peak_factor: PEAK_FACTOR }.value();
        let moves = (scene.situation.bit_depth, pipe_speed);
        let mut above = Cost::default();
        let pass = move |annulus: &'a Annulus| {
            let down_to_it = above;
            above = self.past((annulus, annulus.bottom), moves, above, &mut Off);
            (annulus, down_to_it)
        };
        let passed: Vec<(&Annulus, Cost)> = scene.annuli().iter().rev().map(pass).collect();
        move |depth| {
            let below = passed.partition_point(|(annulus, _)| annulus.top < depth);
            let last = below.checked_sub(1).and_then(|last| passed.get(last));
            last.map_or(0.0, |(annulus, above)| self.past((annulus, depth), moves, *above, &mut Off).pressure())
        }
    }

    /// The working at the depth that governs.
    fn show<R: Recorder>(&self, scene: &Scene, flow: &Flow, at: &Point, rec: &mut R) {
        rec.heading("what the start takes at the governing depth");
        rec.given("measured depth", at.depth, Kind::Depth);
        rec.given("vertical depth", at.vertical_depth, Kind::Depth);
        let cost = self.pressure(scene, at.depth, rec);
        rec.given("gel and inertia together", cost, Kind::Pressure);
        rec.heading("against the window");
        let still = flow.show_pressure(scene, at.depth, at.vertical_depth, rec);
        let pressure = if self.down { still + cost } else { still - cost };
        rec.given(if self.down { "still mud and the start" } else { "still mud less the start" }, pressure, Kind::Pressure);
        rec.take(super::window::equivalent(scene, pressure, at));
        let limit = if self.down { at.fracture.unwrap_or_default() } else { at.floor() };
        rec.given(if self.down { "fracture pressure" } else { "pore or collapse pressure, the larger" }, limit, Kind::Pressure);
        rec.take(super::window::equivalent(scene, limit, at));
    }
}

fn start<R: Recorder>(scene: &Scene, down: bool, rec: &mut R) -> Answer {
    let begin = match Start::of(scene, down, rec) {
        Ok(begin) => begin,
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    let still = scene.with_same_pipe(Situation { operation: Operation::Connection, pipe_speed: 0.0, ..scene.situation });
    let flow = still.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let pressure = begin.pressures(scene);
    let (worst, unknown) = if down {
        worst_rock(scene, flow, |top, point| top.weight_of(pressure(point.depth), point))
    } else {
        let change = |top: Top, point: &Point| -top.weight_of(pressure(point.depth), point);
        (worst_mud(scene, flow, change, "mud less what the start takes"), false)
    };
    let Some((judged, at)) = worst else {
        return if unknown { Answer::Missing(vec!["formation[].fracture"]) } else { Answer::DoesNotArise("no open hole") };
    };
    if unknown && judged.room() >= 0.0 {
        return Answer::Missing(vec!["formation[].fracture"]);
    }
    if R::ON {
        begin.show(scene, flow, &at, rec);
    }
    Answer::Judged(judged)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};

    /// Definition: adding up once what is passed whole changes nothing, to the last digit.
    #[test]
    fn law_pressures_at_many_depths_are_those_at_each() {
        for name in ["ostrick", "tolvane"] {
            let fit = crate::example(name);
            let basis = Basis::new(&fit);
            let start = Start { gel_strength: 5.0, acceleration: 0.3, density: 1400.0, down: true };
            for situation in sweep::in_section(&fit, 2) {
                let scene = Scene::new(&basis, situation);
                let many = start.pressures(&scene);
                for part in 0..=40 {
                    let depth = situation.hole_depth * f64::from(part) / 40.0;
                    let alone = start.pressure(&scene, depth, &mut Off);
                    assert_eq!(many(depth).to_bits(), alone.to_bits(), "{name} {situation:?} {depth}");
                }
            }
        }
    }
}
