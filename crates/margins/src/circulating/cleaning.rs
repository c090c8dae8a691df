//! Hole cleaning: the flow against the smallest that cleans every annulus at its inclination, the share of cuttings, and the fastest
//! rate of penetration that both allow.

use super::pumps::pump_output;
use crate::fields::cleaning::{self, Wanted, velocity};
use crate::fields::flow::{Flow, rheology};
use crate::fields::rheology::mud_at;
use crate::geometry::Annulus;
use crate::{Answer, Figure, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::passage::AnnularCapacity;
use rigwright_physics::circulating::pumps::PumpFlow;
use rigwright_physics::{Kind, Off, Recorder, Root, numerics};
use rigwright_well::Operation;

/// The flow carries the cuttings.
pub(super) fn cleaning<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::Drilling {
        return Answer::DoesNotArise("no rock is drilled");
    }
    if scene.prepared_flow().mud.is_none() {
        return Answer::Missing(vec!["section[].mud.readings"]);
    }
    let Some(wanted) = scene.cleaning() else { return Answer::DoesNotArise("no annulus") };
    if R::ON {
        show(scene, wanted, rec);
    }
    let capacity = scene.situation.flow_rate;
    let reserve = scene.fit().well.reserves.volume * capacity;
    let limit = Limit { capacity, reserve, name: "flow rate", source: "drilling parameters of the well file" };
    Answer::Judged(Judged { demand: wanted.flow_rate, limit, place: Place::Depth(wanted.depth), zero: 0.0 })
}

/// What is left with one pump lost: the crew then stops drilling, and wants to know whether what is left still lifts the cuttings.
pub(super) fn pump_lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.prepared_flow().mud.is_none() {
        return Answer::Missing(vec!["section[].mud.readings"]);
    }
    let Some(wanted) = scene.cleaning() else { return Answer::DoesNotArise("no annulus") };
    if R::ON {
        show(scene, wanted, rec);
    }
    let pump = &scene.fit().rig.pump;
    rec.heading("flow with one pump lost");
    let pumps = scene.section().drilling.pumps_on.min(pump.number.saturating_sub(1)) as f64;
    rec.given("pumps left to share the flow", pumps, Kind::Count);
    let Some(pump_output) = pump_output(scene, rec) else { return Answer::Missing(vec!["rig.pump.rod"]) };
    let most = rec.take(PumpFlow { pump_output, pump_speed: pump.speed, pumps });
    rec.note(|| "A spare pump takes over where there is one; the pumps run no faster than they may.".to_owned());
    let left = scene.situation.flow_rate.min(most);
    let figure = |name, value, kind| Figure { name, value, kind };
    Answer::Told(vec![
        figure("flow left", left, Kind::FlowRate),
        figure("flow that cleans while drilling", wanted.flow_rate, Kind::FlowRate),
        figure("depth that wants it", wanted.depth, Kind::Depth),
        figure("share of that flow which is left", left / wanted.flow_rate.max(f64::MIN_POSITIVE), Kind::Ratio),
    ])
}

/// The share of cuttings in the annulus stays small.
pub(super) fn cuttings_load<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::Drilling {
        return Answer::DoesNotArise("no rock is drilled");
    }
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let Some(worst) = flow.pieces.iter().max_by(|a, b| a.cuttings.total_cmp(&b.cuttings)) else {
        return Answer::DoesNotArise("no annulus");
    };
    if R::ON {
        rec.heading("annulus with the most cuttings");
        rec.stretch(|| "annulus".to_owned(), worst.annulus.top, worst.annulus.bottom);
        Flow::show_cuttings(scene, &worst.annulus, rec);
        Flow::show_annulus(scene, rec);
    }
    let capacity = scene.section().cleaning.cuttings_limit;
    let reserve = scene.fit().well.reserves.volume * capacity;
    let limit = Limit { capacity, reserve, name: "share of cuttings wanted at most", source: "well file" };
    Answer::Judged(Judged { demand: worst.cuttings, limit, place: Place::Depth(worst.annulus.bottom), zero: 0.0 })
}

/// Rates of penetration between which the fastest is looked for. [m/s]
const RATES: (f64, f64) = (1e-7, 0.2);

/// The fastest rate of penetration that the flow still cleans, and with which the share of cuttings stays within its limit.
pub(super) fn penetration_rate<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let Some(loaded) = flow.pieces.iter().max_by(|a, b| a.cuttings.total_cmp(&b.cuttings)) else {
        return Answer::DoesNotArise("no annulus");
    };
    let section = scene.section();
    let (flow_rate, planned) = (scene.situation.flow_rate, section.drilling.penetration_rate);
    // The share of cuttings grows in step with the rate of penetration.
    rec.heading("share of cuttings at the planned rate");
    rec.stretch(|| "annulus".to_owned(), loaded.annulus.top, loaded.annulus.bottom);
    Flow::show_cuttings(scene, &loaded.annulus, rec);
    let by_share = if loaded.cuttings > 0.0 { planned * section.cleaning.cuttings_limit / loaded.cuttings } else { RATES.1 };
    rec.given("rate at which the share reaches its limit", by_share, Kind::DrillingRate);
    let left = |rate: f64| cleaning::wanted(scene, rate).map_or(0.0, |wanted| flow_rate - wanted.flow_rate);
    let by_flow = if left(RATES.0) < 0.0 {
        0.0
    } else if left(RATES.1) >= 0.0 {
        RATES.1
    } else {
        numerics::root(left, RATES.0, RATES.1).unwrap_or(0.0)
    };
    if R::ON {
        rec.heading("flow that cleans");
        rec.root(Root {
            equation: "flow rate less the flow that cleans at that rate of penetration = 0; at most the largest rate looked at",
            sign: "ROP",
            meaning: "fastest rate of penetration that the flow cleans",
            kind: Kind::DrillingRate,
            value: by_flow,
            residual: left(by_flow.max(RATES.0)),
            residual_kind: Kind::FlowRate,
        });
    }
    let figure = |name, value| Figure { name, value, kind: Kind::DrillingRate };
    let mut figures =
        vec![figure("fastest rate of penetration", by_flow.min(by_share).min(RATES.1)), figure("planned rate", planned)];
    figures.push(figure("rate at which the share of cuttings reaches its limit", by_share.min(RATES.1)));
    if by_flow < RATES.1 {
        figures.push(figure("rate at which the flow just cleans", by_flow));
    }
    Answer::Told(figures)
}

fn show<R: Recorder>(scene: &Scene, wanted: &Wanted, rec: &mut R) {
    let Annulus { hole_diameter, pipe_diameter, .. } = wanted.annulus;
    let (Some(_), Some(mud)) = (rheology(scene.section(), rec), mud_at(scene, scene.situation, wanted.depth)) else { return };
    rec.heading("annulus that wants the most flow");
    rec.stretch(|| "annulus".to_owned(), wanted.annulus.top, wanted.annulus.bottom);
    rec.given("inclination there", wanted.inclination, Kind::Angle);
    let rate = scene.section().drilling.penetration_rate;
    let (sizes, at) = ((hole_diameter, pipe_diameter), (wanted.inclination, rate));
    let speed = mud.velocity(|curve, rec| velocity(scene.section(), curve, sizes, at, rec), rec);
    let area = rec.take(AnnularCapacity { hole_diameter, pipe_diameter });
    match speed {
        Some(speed) => {
            rec.given("velocity that cleans", speed, Kind::Speed);
            rec.given("times the area: flow that cleans", speed * area, Kind::FlowRate);
            if wanted.annulus.riser && scene.situation.booster > 0.0 {
                rec.given("of which the booster line gives", scene.situation.booster, Kind::FlowRate);
            }
        }
        None => rec.note(|| "No velocity cleans this annulus.".to_owned()),
    }
}
