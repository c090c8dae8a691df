//! The string out of the hole: its weight and its stands on the floor; and the line work of trips and casing.

use super::load::rated;
use crate::geometry::Pipe;
use crate::programme::{self, Job, line};
use crate::{Answer, Figure, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{LineJob, SetbackLoad, StandsRacked, line_work as work_of};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::PartKind;

pub(super) fn setback<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(capacity) = fit.rig.mast.setback else { return Answer::Missing(vec!["rig.mast.setback"]) };
    rec.heading("weight of the string in air, part by part from the bit up");
    let mut demand = 0.0;
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        // The bit is laid aside.
        if part.kind == PartKind::Bit {
            continue;
        }
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let length = piece.bottom - piece.top;
        demand += rec.take(SetbackLoad { length, linear_mass: part.linear_mass, gravity: scene.gravity() });
    }
    rec.given("weight of the string in air, added up", demand, Kind::Force);
    rec.given("load that the setback bears", capacity, Kind::Force);
    let limit = rated(capacity, fit.well.reserves.load, "setback", "nameplate of the mast or substructure");
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn racking<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(places) = fit.rig.mast.racking else { return Answer::Missing(vec!["rig.mast.racking"]) };
    let demand = rec.take(StandsRacked { length: scene.situation.bit_depth, stand: fit.rig.mast.stand });
    let capacity = f64::from(places);
    rec.given("places in the fingerboard", capacity, Kind::Count);
    let reserve = (fit.well.reserves.volume * capacity).max(1.0);
    let limit = Limit { capacity, reserve, name: "places in the fingerboard", source: "the rig's file" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn line_work<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    rec.heading("round trip of the drill string from the end of the section");
    let Some(string) = line::tripped(scene, rec) else { return Answer::DoesNotArise("no string is given") };
    let trip = work_of(LineJob::RoundTrip(scene.situation.bit_depth), &string, rec);
    let mut figures = vec![Figure { name: "round trip", value: trip, kind: Kind::LineWork }];
    if let Some(casing) = &*scene.section().casing {
        rec.heading("running the casing");
        figures.push(Figure { name: "running the casing", value: line::cased(scene, casing, rec), kind: Kind::LineWork });
    }
    let mut all = 0.0;
    for job in Job::ALL {
        let steps: Vec<_> = scene
            .basis
            .programme()
            .section(scene.situation.section)
            .filter(|step| step.job == job && step.line_work > 0.0)
            .collect();
        let work: f64 = steps.iter().map(|step| step.line_work).sum();
        all += work;
        if let Some(most) = steps.iter().max_by(|a, b| a.line_work.total_cmp(&b.line_work)) {
            rec.heading(job.name());
            if steps.len() > 1 {
                rec.note(|| format!("{} times; the one with the most work in full", steps.len()));
            }
            programme::show(scene.basis, most, rec);
            line::work(scene.basis, most, rec);
            rec.given("all of this kind in the section", work, Kind::LineWork);
        }
    }
    figures.push(Figure { name: "all jobs of the section", value: all, kind: Kind::LineWork });
    Answer::Told(figures)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, sweep};
    use rigwright_physics::tubular::STEEL_DENSITY;
    use rigwright_physics::{Off, Working};
    use rigwright_well::Fit;

    fn ask(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer) -> Answer {
        let basis = Basis::new(fit);
        question(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    /// The string weighs in air what its parts weigh, by hand.
    #[test]
    fn law_setback_is_the_air_weight() {
        let mut fit = crate::example("ostrick");
        let section = &fit.well.sections[2];
        let (mut left, mut weight) = (section.bottom, 0.0);
        for part in &section.string {
            let length = part.length.min(left);
            left -= length;
            if part.kind != PartKind::Bit {
                weight += length * part.linear_mass * rigwright_physics::STANDARD_GRAVITY;
            }
        }
        let judged = *ask(&fit, setback::<Off>).judged().unwrap();
        assert!((judged.demand / weight - 1.0).abs() < 1e-12);
        fit.rig.mast.setback = Some(weight * (1.0 - 1e-12));
        assert_eq!(ask(&fit, setback::<Off>).verdict(), Verdict::Short);
        fit.rig.mast.setback = Some(weight * (1.0 + 1e-12));
        assert_eq!(ask(&fit, setback::<Off>).verdict(), Verdict::Thin);
        fit.rig.mast.setback = None;
        assert_eq!(ask(&fit, setback::<Off>), Answer::Missing(vec!["rig.mast.setback"]));
    }

    #[test]
    fn law_stands_are_counted_whole() {
        let mut fit = crate::example("ostrick");
        let stands = (fit.well.sections[2].bottom / fit.rig.mast.stand).ceil();
        assert!((ask(&fit, racking::<Off>).judged().unwrap().demand - stands).abs() < 1e-9);
        fit.rig.mast.racking = Some(stands as u32);
        assert_eq!(ask(&fit, racking::<Off>).verdict(), Verdict::Thin);
        fit.rig.mast.racking = Some(stands as u32 - 1);
        assert_eq!(ask(&fit, racking::<Off>).verdict(), Verdict::Short);
    }

    /// The trip of the formula is what stand after stand of load times way adds up to, with this well's string.
    #[test]
    fn law_line_work_is_load_times_way() {
        let mut fit = crate::example("ostrick");
        fit.rig.mast.stand = fit.well.sections[2].bottom / 120.0;
        let section = &fit.well.sections[2];
        let buoyed = (1.0 - section.mud.weight / STEEL_DENSITY) * rigwright_physics::STANDARD_GRAVITY;
        let travelling = fit.rig.block.weight + fit.rig.drive.weight;
        let weight = |length: f64| {
            let mut left = length;
            section.string.iter().fold(0.0, |sum, part| {
                let here = part.length.min(left);
                left -= here;
                sum + here * part.linear_mass * buoyed
            })
        };
        let stand = fit.rig.mast.stand;
        // The rule takes collars as hanging there at every stand: compare the part of the trip above them.
        let excess: f64 = section.string.iter().filter(|part| part.length.is_finite()).map(|part| part.length).sum();
        let mut sum = 0.0;
        for pulled in 0..120 {
            let length = section.bottom - f64::from(pulled) * stand;
            let string = if length >= excess {
                weight(length)
            } else {
                weight(excess) - (excess - length) * section.string.last().unwrap().linear_mass * buoyed
            };
            sum += 2.0 * (string + 2.0 * travelling) * stand;
        }
        let Answer::Told(figures) = ask(&fit, line_work::<Off>) else { panic!("figures") };
        assert!((figures[0].value / sum - 1.0).abs() < 1e-9, "{} {sum}", figures[0].value);
        assert_eq!(figures.len(), 3);
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        let fit = crate::example("ostrick");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 1));
        let mut working = Working::default();
        assert_eq!(setback(&scene, &mut working), setback(&scene, &mut Off));
        assert_eq!(racking(&scene, &mut working), racking(&scene, &mut Off));
        assert_eq!(line_work(&scene, &mut working), line_work(&scene, &mut Off));
    }
}
