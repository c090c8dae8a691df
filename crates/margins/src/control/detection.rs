//! How soon a kick is seen and shut in, against what the well takes.

use super::shut_in::NOT_SHUT_IN;
use super::{LARGER, ONE_BUBBLE, ROCK_HEAT, SQUEEZED, can_shut_in, tolerance};
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Scene};
use rigwright_physics::control::kick::{DetectionVolume, InfluxAtShutIn};
use rigwright_physics::{Kind, Off, Recorder, Working};
use rigwright_well::Operation;

/// Influx at shut-in over influx at detection by one company's standard, IPM-ST-WCI-011 (10 May 2002); shown for comparison, never judged by.
const RULE_OF_THREE: f64 = 3.0;

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "control/detection",
    asks: "Is a kick seen and shut in before it is larger than the well takes?",
    title: "influx until shut-in",
    kind: Kind::Volume,
    scope: Scope::Situation,
    knobs: &["mud weight", "casing seat"],
    assumes: &[
        ONE_BUBBLE,
        ROCK_HEAT,
        LARGER,
        SQUEEZED,
        "steady inflow until the slowest preventer has closed; no alarm is no proof that nothing flows in",
    ],
    ask: detection::<Off>,
    show: detection::<Working>,
}];

fn detection<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !can_shut_in(scene) {
        return super::DIVERTED;
    }
    if scene.situation.operation != Operation::ShutIn {
        return NOT_SHUT_IN;
    }
    let kick = &fit.well.kick;
    let slowest = fit.rig.stack.iter().try_fold(0.0_f64, |slowest, one| Some(slowest.max(one.closing_time?)));
    let slowest = slowest.filter(|_| !fit.rig.stack.is_empty());
    let (Some(alarm_gain), Some(inflow), Some(reaction_time), Some(closing_time)) =
        (kick.alarm_gain, kick.inflow, kick.reaction_time, slowest)
    else {
        let given = [
            (kick.alarm_gain.is_some(), "kick.alarm_gain"),
            (kick.inflow.is_some(), "kick.inflow"),
            (kick.reaction_time.is_some(), "kick.reaction_time"),
            (slowest.is_some(), "rig.preventer[].closing_time"),
        ];
        return Answer::Missing(given.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect());
    };
    rec.heading("what flows in until the well is shut in");
    let demand = rec.take(InfluxAtShutIn { alarm_gain, inflow, reaction_time, closing_time });
    let taken = match tolerance::drilled(scene, rec) {
        Answer::Judged(taken) => taken,
        other => return other,
    };
    if R::ON {
        rec.heading("for comparison: the gain at which a kick is to be seen, by one company's rule of three");
        rec.note(|| {
            "IPM-ST-WCI-011 (10 May 2002) takes the influx at shut-in as three times that at detection. The answer counts inflow and times instead.".to_owned()
        });
        rec.take(DetectionVolume { design_volume: taken.limit.capacity, growth: RULE_OF_THREE });
    }
    let limit = Limit { reserve: fit.well.reserves.volume * demand, ..taken.limit };
    Answer::Judged(Judged { demand, limit, ..taken })
}
