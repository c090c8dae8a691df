//! What bears the back pressure, and the crew's own limits of the plan.

use super::NO_BACK_PRESSURE;
use super::plan::{Plan, mud_column, mud_pressure, plan};
use crate::circulating::place_of;
use crate::control::ratings::rated;
use crate::control::tolerance;
use crate::{Answer, Judged, Limit, Place, Scene, sweep, worst};
use rigwright_physics::control::limits::MaaspFlowing;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Operation;

fn judged(demand: f64, limit: Limit) -> Judged {
    Judged { demand, limit, place: Place::Surface, zero: 0.0 }
}

pub(super) fn seal<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let seal = scene.fit().rig.rotating_seal;
    let mut missing = Vec::new();
    let mut judgements = Vec::new();
    for (demand, rating, name, entry) in [
        (plan.managed.flowing, seal.turning, "rotating seal, turning", "rig.rotating_seal.turning"),
        (plan.highest_still(), seal.still, "rotating seal, still", "rig.rotating_seal.still"),
    ] {
        match rating {
            Some(rating) => {
                rec.given(name, rating, Kind::Pressure);
                rec.given("back pressure then", demand, Kind::Pressure);
                judgements.push(judged(demand, rated(scene.fit(), rating, name)));
            }
            None => missing.push(entry),
        }
    }
    settle(judgements, missing)
}

pub(super) fn choke<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let fit = scene.fit();
    let Some(rating) = fit.rig.managed_choke else { return Answer::Missing(vec!["rig.managed_choke.rating"]) };
    rec.given("working pressure of the managed choke", rating, Kind::Pressure);
    let demand = plan.highest_still().max(plan.managed.flowing);
    Answer::Judged(judged(demand, rated(fit, rating, "rating of the managed choke")))
}

pub(super) fn pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let fit = scene.fit();
    let Some(own) = plan.managed.pressure_limit else {
        return Answer::Missing(vec!["section[].managed_pressure.pressure_limit"]);
    };
    let mut missing = Vec::new();
    let highest = plan.highest_still().max(plan.managed.flowing);
    rec.heading("the plan against its own limit");
    rec.given("highest back pressure of the plan", highest, Kind::Pressure);
    rec.given("limit of the plan", own, Kind::Pressure);
    let reserve = fit.well.reserves.pressure * own;
    let limit = Limit { capacity: own, reserve, name: "limit of the plan", source: "managed pressure of the well file" };
    let mut judgements = vec![judged(highest, limit)];
    rec.heading("the limit against what bears it, pumps off");
    match rock(scene, &plan, rec) {
        Ok(limits) => judgements.extend(limits.map(|(limit, place)| Judged { place, ..judged(own, limit) })),
        Err(entry) => missing.push(entry),
    }
    for (rating, name, entry) in [
        (fit.rig.rotating_seal.still, "rotating seal, still", "rig.rotating_seal.still"),
        (fit.rig.managed_choke, "rating of the managed choke", "rig.managed_choke.rating"),
    ] {
        match rating {
            Some(rating) => {
                rec.given(name, rating, Kind::Pressure);
                judgements.push(judged(own, rated(fit, rating, name)));
            }
            None => missing.push(entry),
        }
    }
    settle(judgements, missing)
}

/// Back pressure that the weakest depth bears with the pumps off; `None` without open hole.
fn rock<R: Recorder>(scene: &Scene, plan: &Plan, rec: &mut R) -> Result<Option<(Limit, Place)>, &'static str> {
    let mut least: Option<(f64, usize)> = None;
    for (index, at) in plan.depths.iter().enumerate() {
        let Some(fracture) = at.point.fracture else { return Err("formation[].fracture") };
        let room = fracture - mud_pressure(scene, &at.point);
        if least.is_none_or(|(kept, _)| room < kept) {
            least = Some((room, index));
        }
    }
    let Some((capacity, at)) = least.and_then(|(room, index)| Some((room, plan.depths.get(index)?))) else { return Ok(None) };
    rec.given("measured depth of the weakest rock", at.point.depth, Kind::Depth);
    rec.given("pressure that it bears", at.point.fracture.unwrap_or_default(), Kind::Pressure);
    rec.take(mud_column(scene, &at.point));
    rec.given("back pressure that it bears: the difference", capacity, Kind::Pressure);
    let annular_loss = (at.pumping - plan.managed.flowing - mud_pressure(scene, &at.point)).max(0.0);
    rec.given("friction from there to surface while pumping", annular_loss, Kind::Pressure);
    rec.take(MaaspFlowing { maasp: capacity, annular_loss, choke_line_loss: 0.0 });
    let reserve = scene.fit().well.margins.fracture * scene.gravity() * at.point.vertical_depth;
    let (name, source) = place_of(&at.point);
    Ok(Some((Limit { capacity, reserve, name, source }, Place::Depth(at.point.depth))))
}

pub(super) fn influx<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(managed) = scene.section().managed_pressure else { return NO_BACK_PRESSURE };
    let Some(demand) = managed.influx_planned else {
        return Answer::Missing(vec!["section[].managed_pressure.influx_planned"]);
    };
    let bottom = scene.section().bottom;
    let situation = sweep::situation(scene.fit(), scene.situation.section, Operation::ShutIn, bottom, bottom);
    let shut_in = Scene::new(scene.basis, situation);
    match tolerance::drilled(&shut_in, rec) {
        Answer::Judged(tolerance) => {
            rec.given("largest influx that the plan circulates out", demand, Kind::Volume);
            let reserve = scene.fit().well.reserves.volume * demand;
            Answer::Judged(Judged { demand, limit: Limit { reserve, ..tolerance.limit }, ..tolerance })
        }
        other => other,
    }
}

/// The worst judgement, unless something is missing that could be worse.
fn settle(judgements: Vec<Judged>, missing: Vec<&'static str>) -> Answer {
    match worst(judgements) {
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}
