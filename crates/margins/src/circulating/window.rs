//! The mud window: pressure in the annulus against pore, collapse and fracture pressure at every depth of open hole,
//! all said as mud weights at that depth.

use crate::fields::flow::Flow;
use crate::fields::open_hole::{self, Point};
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::circulating::surge::{GelBreakAnnulus, HeaveSpeed};
use rigwright_physics::{Formula, Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Operation, Situation};

const NO_OPEN_HOLE: Answer = Answer::DoesNotArise("no open hole");
const CONTROL: Answer = Answer::DoesNotArise("a well shut in on a kick is looked at under control");

/// The mud holds back pore and collapse pressure.
pub(super) fn overbalance<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match scene.situation.operation {
        Operation::Connection | Operation::Circulating | Operation::PullingOut => {}
        Operation::Drilling => return Answer::DoesNotArise("cuttings only add weight: circulating is the lighter case"),
        Operation::RunningIn | Operation::RunningCasing => return Answer::DoesNotArise("running in adds pressure"),
        Operation::ShutIn => return CONTROL,
    }
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let Some((worst, at)) = lower_side(scene, flow) else { return NO_OPEN_HOLE };
    if R::ON {
        show(scene, flow, &at, rec);
        rec.heading("lower side of the window");
        let pressure = at.floor();
        rec.given("pore pressure", at.pore, Kind::Pressure);
        match at.collapse {
            Some(collapse) => rec.given("collapse pressure; the larger of the two counts", collapse, Kind::Pressure),
            None => rec.note(|| "no collapse pressure is given for this layer".to_owned()),
        }
        rec.take(equivalent(scene, pressure, &at));
    }
    Answer::Judged(worst)
}

/// Where the mud comes nearest to pore and collapse pressure.
pub(super) fn lower_side(scene: &Scene, flow: &Flow) -> Option<(Judged, Point)> {
    let margins = &scene.fit().well.margins;
    let (reserve, name) = match scene.situation.operation {
        Operation::PullingOut => (margins.swab, "mud less swab"),
        Operation::Circulating => (margins.trip, "mud, flowing without cuttings"),
        _ => (margins.trip, "mud, pumps off"),
    };
    let top = Top::of(scene);
    worst_point(scene, |point: &Point| {
        let limit = Limit { capacity: top.mud_weight(flow, point), reserve, name, source: "mud weight and losses" };
        let demand = top.weight(point.floor(), point);
        Some(Judged { demand, limit, place: Place::Depth(point.depth), zero: 0.0 })
    })
}

/// The rock bears the mud.
pub(super) fn fracture<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match scene.situation.operation {
        Operation::Drilling | Operation::Connection | Operation::RunningIn | Operation::RunningCasing => {}
        Operation::Circulating => return Answer::DoesNotArise("drilling adds cuttings to the same flow"),
        Operation::PullingOut => return Answer::DoesNotArise("pulling takes pressure off"),
        Operation::ShutIn => return CONTROL,
    }
    against_fracture(scene, 0.0, rec)
}

/// The string in slips moves with the rig: the mud holds back what it has to while it is lifted.
pub(super) fn heave_swab<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match heaving(scene, Operation::PullingOut, rec) {
        Ok(scene) => overbalance(&scene, rec),
        Err(answer) => answer,
    }
}

/// The rock bears the mud while the string in slips is lowered.
pub(super) fn heave_surge<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match heaving(scene, Operation::RunningIn, rec) {
        Ok(scene) => fracture(&scene, rec),
        Err(answer) => answer,
    }
}

/// The scene of a connection with the string moving at the largest speed of the heave.
fn heaving<'a, R: Recorder>(scene: &Scene<'a>, operation: Operation, rec: &mut R) -> Result<Scene<'a>, Answer> {
    let well = &scene.fit().well;
    if well.sea_bed().is_none() {
        return Err(Answer::DoesNotArise("the rig does not float"));
    }
    if scene.situation.operation != Operation::Connection {
        return Err(Answer::DoesNotArise("the compensator takes the heave while the string hangs in the hook"));
    }
    let Some(heave) = well.sea.and_then(|sea| sea.heave) else { return Err(Answer::Missing(vec!["sea.heave"])) };
    rec.heading("largest speed of the heave");
    let pipe_speed = rec.take(HeaveSpeed { heave: heave.height, period: heave.period });
    let mut heaving = scene.with_same_pipe(Situation { operation, pipe_speed, heaves: true, ..scene.situation });
    heaving.at = scene.at;
    Ok(heaving)
}

/// The rock bears the start of the pumps.
pub(super) fn break_circulation<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::Connection {
        return Answer::DoesNotArise("the gel is broken when the pumps start after a connection");
    }
    let Some([_, gel_strength]) = scene.section().mud.gels else { return Answer::Missing(vec!["section[].mud.gels"]) };
    against_fracture(scene, gel_strength, rec)
}

/// Fracture pressure against the mud, with the gel of the annulus above to be broken.
fn against_fracture<R: Recorder>(scene: &Scene, gel_strength: f64, rec: &mut R) -> Answer {
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    match upper_side(scene, flow, gel_strength) {
        // A layer whose strength nobody knows must not look as if it held.
        (Some((judged, _)), true) if judged.room() >= 0.0 => Answer::Missing(vec!["formation[].fracture"]),
        (None, true) => Answer::Missing(vec!["formation[].fracture"]),
        (None, false) => NO_OPEN_HOLE,
        (Some((judged, at)), _) => {
            if R::ON {
                show(scene, flow, &at, rec);
                if gel_strength > 0.0 {
                    rec.heading("gel in the annulus above");
                    let pressure = gel_break(flow, gel_strength, at.depth, rec);
                    rec.take(equivalent(scene, pressure, &at));
                }
                rec.heading("upper side of the window");
                rec.take(equivalent(scene, at.fracture.unwrap_or_default(), &at));
            }
            Answer::Judged(judged)
        }
    }
}

/// Where the mud comes nearest to fracture pressure, and whether the strength of some depth is not known.
pub(super) fn upper_side(scene: &Scene, flow: &Flow, gel_strength: f64) -> (Option<(Judged, Point)>, bool) {
    worst_rock(scene, flow, |top, point| top.weight_of(gel_break(flow, gel_strength, point.depth, &mut Off), point))
}

/// Where the mud, with a change of its weight on top at each depth, comes nearest to pore and collapse pressure.
pub(super) fn worst_mud(
    scene: &Scene,
    flow: &Flow,
    change: impl Fn(Top, &Point) -> f64,
    name: &'static str,
) -> Option<(Judged, Point)> {
    let (top, reserve) = (Top::of(scene), scene.fit().well.margins.swab);
    worst_point(scene, |point: &Point| {
        let capacity = top.mud_weight(flow, point) + change(top, point);
        let limit = Limit { capacity, reserve, name, source: "mud weight, gels and acceleration of the block" };
        Some(Judged { demand: top.weight(point.floor(), point), limit, place: Place::Depth(point.depth), zero: 0.0 })
    })
}

/// Where the mud, with a change of its weight on top at each depth, comes nearest to fracture pressure, and whether the strength of
/// some depth is not known.
pub(super) fn worst_rock(scene: &Scene, flow: &Flow, change: impl Fn(Top, &Point) -> f64) -> (Option<(Judged, Point)>, bool) {
    let mut unknown = false;
    let (top, reserve) = (Top::of(scene), scene.fit().well.margins.fracture);
    let worst = worst_point(scene, |point: &Point| {
        unknown |= point.fracture.is_none();
        let (name, source) = place_of(point);
        let limit = Limit { capacity: top.weight(point.fracture?, point), reserve, name, source };
        let demand = top.mud_weight(flow, point) + change(top, point);
        Some(Judged { demand, limit, place: Place::Depth(point.depth), zero: 0.0 })
    });
    (worst.map(|(judged, at)| (Judged { zero: top.weight(at.pore, &at), ..judged }, at)), unknown)
}

/// The worst judgement over the open hole, with its depth: the prepared depths, the ends of the pieces of annulus and the bottom.
pub(super) fn worst_point(scene: &Scene, mut judge: impl FnMut(&Point) -> Option<Judged>) -> Option<(Judged, Point)> {
    let situation = &scene.situation;
    let prepared = scene.prepared_flow().open_hole.above(situation.hole_depth);
    let (mut worst, mut least) = (None, f64::INFINITY);
    let mut look = |point: &Point| {
        let Some(judged) = judge(point) else { return };
        let room = judged.room();
        if worst.is_none() || room < least {
            (worst, least) = (Some((judged, *point)), room);
        }
    };
    if let Some(at) = scene.at {
        open_hole::only(scene, at).iter().for_each(look);
        return worst;
    }
    prepared.iter().for_each(&mut look);
    scene.open_ends().iter().for_each(look);
    worst
}

/// What sets the strength of a depth, and where that comes from.
pub(crate) fn place_of(point: &Point) -> (&'static str, &'static str) {
    if point.tested {
        ("shoe test", "leak-off or integrity test of the shoe")
    } else {
        ("fracture pressure", "formations of the well file")
    }
}

/// Where columns of mud begin: at the datum, or at the sea bed where the mud goes out there.
#[derive(Clone, Copy)]
pub(super) struct Top {
    /// Vertical depth. [m]
    depth: f64,
    /// Pressure there. [Pa]
    pressure: f64,
    /// [m/s²]
    gravity: f64,
}

impl Top {
    /// Of a scene.
    pub(super) fn of(scene: &Scene) -> Top {
        let depth = scene.fit().open_to_sea(scene.situation.section).unwrap_or(0.0);
        Top { depth, pressure: scene.sea_pressure(), gravity: scene.gravity() }
    }

    /// A pressure at a depth as a mud weight.
    fn equivalent(self, pressure: f64, at: &Point) -> EquivalentMudWeight {
        self.difference(pressure - self.pressure, at)
    }

    /// A difference of pressure at a depth as a difference of mud weight.
    fn difference(self, pressure: f64, at: &Point) -> EquivalentMudWeight {
        EquivalentMudWeight { pressure, vertical_depth: at.vertical_depth - self.depth, gravity: self.gravity }
    }

    /// A pressure at a depth as a mud weight. [kg/m³]
    fn weight(self, pressure: f64, at: &Point) -> f64 {
        self.equivalent(pressure, at).value()
    }

    /// A difference of pressure at a depth as a difference of mud weight. [kg/m³]
    pub(super) fn weight_of(self, difference: f64, at: &Point) -> f64 {
        self.difference(difference, at).value()
    }

    /// The pressure in the annulus as a mud weight. [kg/m³]
    fn mud_weight(self, flow: &Flow, at: &Point) -> f64 {
        self.weight(flow.pressure_at(at.depth, at.vertical_depth), at)
    }
}

/// A pressure at a depth as a mud weight: from the datum down, or from the sea bed down where the mud goes out there.
pub(super) fn equivalent(scene: &Scene, pressure: f64, at: &Point) -> EquivalentMudWeight {
    Top::of(scene).equivalent(pressure, at)
}

pub(crate) fn weight(scene: &Scene, pressure: f64, at: &Point) -> f64 {
    Top::of(scene).weight(pressure, at)
}

/// The pressure in the annulus as a mud weight.
pub(super) fn mud_weight(scene: &Scene, flow: &Flow, at: &Point) -> f64 {
    Top::of(scene).mud_weight(flow, at)
}

/// Pressure that breaks the gel in the annulus from a depth to surface. [Pa]
pub(super) fn gel_break<R: Recorder>(flow: &Flow, gel_strength: f64, depth: f64, rec: &mut R) -> f64 {
    if gel_strength <= 0.0 {
        return 0.0;
    }
    let pieces = flow.pieces.iter().filter(|piece| piece.annulus.top < depth && piece.annulus.pipe_diameter > 0.0);
    let break_piece = pieces.map(|piece| {
        let length = piece.annulus.bottom.min(depth) - piece.annulus.top;
        let (hole_diameter, pipe_diameter) = (piece.annulus.hole_diameter, piece.annulus.pipe_diameter);
        rec.take(GelBreakAnnulus { gel_strength, length, hole_diameter, pipe_diameter })
    });
    break_piece.sum()
}

const WINDOW: &[(&str, Kind)] = &[
    ("depth", Kind::Depth),
    ("vertical depth", Kind::Depth),
    ("pore", Kind::Density),
    ("mud", Kind::Density),
    ("pressure", Kind::Pressure),
];

/// The pressure at the governing depth, and the window along the open hole.
pub(super) fn show<R: Recorder>(scene: &Scene, flow: &Flow, at: &Point, rec: &mut R) {
    Flow::show_annulus(scene, rec);
    rec.heading("at the governing depth");
    rec.given("measured depth", at.depth, Kind::Depth);
    rec.given("vertical depth", at.vertical_depth, Kind::Depth);
    let pressure = flow.show_pressure(scene, at.depth, at.vertical_depth, rec);
    rec.take(equivalent(scene, pressure, at));
    let situation = &scene.situation;
    rec.table("window along the open hole, as mud weights", WINDOW, || {
        let prepared = scene.prepared_flow().open_hole.above(situation.hole_depth);
        let row = |point: &Point| {
            let pressure = flow.pressure_at(point.depth, point.vertical_depth);
            vec![point.depth, point.vertical_depth, weight(scene, point.pore, point), weight(scene, pressure, point), pressure]
        };
        prepared.iter().map(row).collect()
    });
}
