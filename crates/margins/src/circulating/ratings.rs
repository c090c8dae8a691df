//! Flow and pressure against ratings that are neither liner nor pump: the start of circulation, the wall of the hole, return line and
//! shakers.

use super::pumps::against_ratings;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::passage::AnnularVelocity;
use rigwright_physics::circulating::surge::{GelBreakAnnulus, GelBreakPipe};
use rigwright_physics::{Kind, Recorder};

/// Liners and surface lines bear the pressure that breaks circulation.
pub(super) fn standpipe_break<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some([_, gel_strength]) = scene.section().mud.gels else { return Answer::Missing(vec!["section[].mud.gels"]) };
    let mut demand = 0.0;
    rec.heading("gel inside the string");
    for piece in scene.string().iter().filter(|piece| piece.pipe.inner_diameter() > 0.0) {
        rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
        let inner_diameter = piece.pipe.inner_diameter();
        demand += rec.take(GelBreakPipe { gel_strength, length: piece.bottom - piece.top, inner_diameter });
    }
    rec.heading("gel in the annulus");
    for annulus in scene.annuli().iter().filter(|annulus| annulus.pipe_diameter > 0.0) {
        rec.stretch(|| "annulus".to_owned(), annulus.top, annulus.bottom);
        let (hole_diameter, pipe_diameter) = (annulus.hole_diameter, annulus.pipe_diameter);
        demand += rec.take(GelBreakAnnulus { gel_strength, length: annulus.length(), hole_diameter, pipe_diameter });
    }
    rec.given("pressure that breaks circulation: the sum", demand, Kind::Pressure);
    against_ratings(scene, rec, demand)
}

/// The wall of the open hole bears the flow.
pub(super) fn washout<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(capacity) = scene.section().cleaning.most_velocity else {
        return Answer::Missing(vec!["section[].cleaning.most_velocity"]);
    };
    let open = scene.annuli().iter().filter(|annulus| !annulus.cased && annulus.pipe_diameter > 0.0);
    let Some(narrowest) = open.min_by(|a, b| a.capacity().total_cmp(&b.capacity())) else {
        return Answer::DoesNotArise("no pipe in open hole");
    };
    rec.heading("narrowest annulus in open hole");
    rec.stretch(|| "annulus".to_owned(), narrowest.top, narrowest.bottom);
    let (hole_diameter, pipe_diameter) = (narrowest.hole_diameter, narrowest.pipe_diameter);
    let demand = rec.take(AnnularVelocity { flow_rate: scene.situation.flow_rate, hole_diameter, pipe_diameter });
    let reserve = scene.fit().well.reserves.volume * capacity;
    let limit = Limit { capacity, reserve, name: "velocity that the wall bears", source: "well file" };
    Answer::Judged(Judged { demand, limit, place: Place::Depth(narrowest.bottom), zero: 0.0 })
}

/// Return line and shakers take the flow.
pub(super) fn return_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let returns = &scene.fit().rig.returns;
    let share = scene.fit().well.reserves.volume;
    if scene.fit().open_to_sea(scene.situation.section).is_some() {
        return super::TO_SEA;
    }
    let demand = scene.situation.flow_rate + scene.situation.booster;
    rec.given("flow that comes back", demand, Kind::FlowRate);
    let judge = |capacity: f64, name: &'static str| {
        let limit = Limit { capacity, reserve: share * capacity, name, source: "rig file" };
        Judged { demand, limit, place: Place::Surface, zero: 0.0 }
    };
    let line = returns.line.map(|capacity| judge(capacity, "return line"));
    let shakers = returns.shakers.map(|capacity| judge(capacity, "shakers with the screens fitted"));
    for judged in line.iter().chain(&shakers) {
        rec.given(judged.limit.name, judged.limit.capacity, Kind::FlowRate);
    }
    let missing = super::pits::absent([(line.is_some(), "rig.returns.line"), (shakers.is_some(), "rig.returns.shakers")]);
    match crate::worst(line.into_iter().chain(shakers)) {
        // An unknown rating must not look as if it held; one that is passed is short whatever the other is.
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}
