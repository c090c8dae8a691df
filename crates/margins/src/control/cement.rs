//! Waiting on cement: whether the strength that the laboratory's report gives is there when the plan drills out the shoe, nipples
//! down the preventers or tests the casing. Nothing is told beyond the report.

use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::control::cement::{Reached, time_to_strength};
use rigwright_physics::{Kind, Off, Recorder, Working};

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "control/cement-wait",
    asks: "Is the cement strong enough when the plan drills out the shoe, nipples down the preventers or tests the casing?",
    title: "wait on cement",
    kind: Kind::Time,
    scope: Scope::Section,
    knobs: &["wait on cement"],
    assumes: &[
        "strength by the laboratory's report, at the temperature and pressure of its test; cement in the well may be colder, thinner or mixed with mud",
        "between two readings strength grows evenly: a report that gives the time to the wanted strength itself is better",
        "time counts from cement in place; a step for which no wait is planned is not looked at",
        "strengths asked for are those of the file, else of the rule named there: verify the current text, your authority rules",
    ],
    ask: wait::<Off>,
    show: wait::<Working>,
}];

/// A step of the plan that waits on cement.
struct Step {
    what: &'static str,
    name: &'static str,
    /// Planned wait. [s]
    wait: Option<f64>,
    /// Strength that it asks for. [Pa]
    strength: Option<f64>,
    entry: &'static str,
}

fn wait<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.situation.section;
    let Some(casing) = &*scene.section().casing else { return Answer::DoesNotArise("no casing is cemented in this section") };
    let wait = &casing.cement_wait;
    let steps = [
        Step {
            what: "before the shoe is drilled out",
            name: "planned wait, drilling out",
            wait: wait.drill_out,
            strength: Some(wait.drill_out_strength),
            entry: "section[].casing.wait_to_drill_out",
        },
        Step {
            what: "before the preventers are nippled down",
            name: "planned wait, preventers",
            wait: wait.nipple_down,
            strength: Some(wait.nipple_down_strength),
            entry: "section[].casing.wait_to_nipple_down",
        },
        Step {
            what: "before the casing is tested",
            name: "planned wait, casing test",
            wait: wait.test,
            strength: wait.test_strength,
            entry: "section[].casing.test_strength",
        },
    ];
    let drilled_out = scene.fit().well.sections.get(section + 1).is_some();
    if !drilled_out && steps.iter().all(|step| step.wait.is_none()) {
        return Answer::DoesNotArise("nothing is drilled below this casing, and no wait is planned");
    }
    let mut missing = Vec::new();
    if wait.strengths.is_empty() {
        missing.push("section[].casing.cement_strength");
    }
    if drilled_out && wait.drill_out.is_none() {
        missing.push(steps[0].entry);
    }
    missing.extend(steps.iter().filter(|step| step.wait.is_some() && step.strength.is_none()).map(|step| step.entry));
    if !missing.is_empty() {
        return Answer::Missing(missing);
    }
    rec.heading("strength by the laboratory's report");
    rec.table("readings", &[("time", Kind::Time), ("compressive strength", Kind::Pressure)], || {
        wait.strengths.iter().map(|(time, strength)| vec![*time, *strength]).collect()
    });
    let mut unknown = false;
    let mut judgements = Vec::new();
    for step in &steps {
        let (Some(planned), Some(strength)) = (step.wait, step.strength) else { continue };
        rec.heading(step.what);
        rec.given("strength that is asked for", strength, Kind::Pressure);
        let demand = match time_to_strength(&wait.strengths, strength, rec) {
            Some(Reached::At(time)) => time,
            Some(Reached::ByTheFirst(time)) => {
                rec.note(|| "It is there by the first reading; when before, nobody knows.".to_owned());
                time
            }
            // What the report denies up to its end is short in any case; what lies behind it nobody knows.
            Some(Reached::NotBy(time)) if planned <= time => {
                rec.note(|| "It is not there by the last reading: the wait that is needed is longer than that.".to_owned());
                time.next_up()
            }
            _ => {
                rec.note(|| "It is not there by the last reading, and the wait is longer than the report tells.".to_owned());
                unknown = true;
                continue;
            }
        };
        rec.given("time to it", demand, Kind::Time);
        rec.given("planned wait", planned, Kind::Time);
        let limit =
            Limit { capacity: planned, reserve: scene.fit().well.reserves.volume * demand, name: step.name, source: "well file" };
        judgements.push(Judged { demand, limit, place: Place::Depth(casing.shoe), zero: 0.0 });
    }
    match worst(judgements) {
        Some(judged) if !unknown || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(vec!["section[].casing.cement_strength"]),
    }
}
