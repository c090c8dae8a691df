//! Connections of the string: what pipe is made up to, and whether box and pin of the collars bend alike.

use super::body::is_pipe;
use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::tubular::{
    JOINT_YIELD, MAKE_UP_SHARE, MakeUpTorque, ShoulderRule, ToolJoint, bending_strength_ratio, thread,
};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Part, PartKind};

/// Bending strength ratio that is aimed at: box and pin tire alike (common practice). [-]
const AIM: f64 = 2.5;
/// Below this the box is too weak, above that the pin (common practice; the collars of API Spec 7 lie between). [-]
const BAND: [f64; 2] = [1.9, 3.2];

/// Torque to which a part is made up: as given; for pipe whose connection is named, by API RP 7G.
pub(crate) fn make_up<R: Recorder>(part: &Part, rec: &mut R) -> Option<f64> {
    let joint = part.joint?;
    if let Some(given) = joint.make_up_torque {
        rec.given("make-up torque", given, Kind::Torque);
        return Some(given);
    }
    // Collars are made up by other rules, which are not reckoned here.
    let thread = thread(part.connection.as_deref().filter(|_| is_pipe(part))?)?;
    let (outer_diameter, inner_diameter) = (joint.outer_diameter, joint.inner_diameter);
    let tool_joint = ToolJoint { thread, outer_diameter, inner_diameter, yield_strength: JOINT_YIELD };
    let torsion_strength = tool_joint.torsion_strength(ShoulderRule::Balanced, rec);
    Some(rec.take(MakeUpTorque { torsion_strength, share: MAKE_UP_SHARE }))
}

pub(super) fn collar_connections<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let reserve = scene.fit().well.reserves.strength;
    let (mut judgements, mut missing, mut any) = (Vec::new(), false, false);
    rec.heading("stiffness of box and pin of each run of collars");
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if part.kind != PartKind::Collar {
            continue;
        }
        any = true;
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let Some(thread) = part.connection.as_deref().and_then(thread) else {
            missing = true;
            continue;
        };
        let ratio = bending_strength_ratio(&thread, part.outer_diameter, part.inner_diameter, rec);
        // A collar without pin or box cannot be: it lies outside the band by far.
        let ratio = ratio.unwrap_or(0.0);
        let (capacity, name) = if ratio > AIM {
            (BAND[1] - AIM, "above the aim of 2.5: the pin is the weaker")
        } else {
            (AIM - BAND[0], "below the aim of 2.5: the box is the weaker")
        };
        rec.given("how far it is from the aim", (ratio - AIM).abs(), Kind::Ratio);
        let limit = Limit { capacity, reserve, name, source: "bending strength ratio of 1.9 to 3.2, common practice" };
        judgements.push(Judged { demand: (ratio - AIM).abs(), limit, place: Place::Depth(piece.top), zero: 0.0 });
    }
    let worst = worst(judgements);
    let short = worst.is_some_and(|judged| judged.room() < 0.0);
    match worst {
        // A connection that nobody names may be the worse one, unless a known one is outside already.
        _ if missing && !short => Answer::Missing(vec!["section[].string[].connection"]),
        Some(judged) => Answer::Judged(judged),
        None if any => Answer::Missing(vec!["section[].string[].connection"]),
        None => Answer::DoesNotArise("no collars in the string"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, question, sweep};
    use rigwright_physics::{Off, Working};
    use rigwright_well::Fit;

    const INCH: f64 = 0.0254;
    const FOOT_POUND: f64 = 0.3048 * 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;

    fn ask(fit: &Fit) -> Answer {
        let basis = Basis::new(fit);
        collar_connections(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    fn collar(outer: f64, inner: f64, connection: &str) -> Fit {
        let mut fit = crate::example("ostrick");
        let part = &mut fit.well.sections[2].string[1];
        (part.outer_diameter, part.inner_diameter) = (outer * INCH, inner * INCH);
        part.connection = Some(connection.to_owned());
        fit
    }

    /// API Spec 7 lists NC44-60 collars of 6 x 2 13/16 in with a ratio of 2.84: 0.34 from the aim.
    #[test]
    fn published_ratio_of_a_listed_collar() {
        let fit = collar(6.0, 2.8125, "NC44");
        let judged = *ask(&fit).judged().unwrap();
        assert!((judged.demand - 0.34).abs() <= 0.005, "{}", judged.demand);
        let basis = Basis::new(&fit);
        let mut working = Working::default();
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        assert_eq!(collar_connections(&scene, &mut working), ask(&fit));
    }

    /// A box turned down swells, a bore opened up breaks its pin; each is short, and says which.
    #[test]
    fn law_both_sides_of_the_band_are_short() {
        let thin_box = ask(&collar(5.6, 2.25, "NC44"));
        assert_eq!(thin_box.verdict(), Verdict::Short);
        assert!(thin_box.judged().unwrap().limit.name.contains("box"));
        let thin_pin = ask(&collar(6.5, 3.0, "NC44"));
        assert_eq!(thin_pin.verdict(), Verdict::Short);
        assert!(thin_pin.judged().unwrap().limit.name.contains("pin"));
        let mut nameless = crate::example("ostrick");
        nameless.well.sections[2].string[1].connection = None;
        assert_eq!(ask(&nameless), Answer::Missing(vec!["section[].string[].connection"]));
    }

    /// API RP 7G, 2003 addendum: NC50 of 6 5/8 x 3 1/4 in is made up to 60 % of 51,217 ft-lbf, as rental sheets have it
    /// rounded down: 30,730. What the crew gives goes before it.
    #[test]
    fn published_make_up_of_a_named_connection() {
        let mut fit = crate::example("ostrick");
        let pipe = fit.well.sections[2].string.last_mut().unwrap();
        pipe.connection = Some("NC50".to_owned());
        let given = make_up(pipe, &mut Off).unwrap() / FOOT_POUND;
        assert!((given - 25_600.0).abs() < 1e-6);
        if let Some(joint) = pipe.joint.as_mut() {
            joint.make_up_torque = None;
        }
        let reckoned = make_up(pipe, &mut Off).unwrap() / FOOT_POUND;
        assert!((reckoned - 0.6 * 51_217.0).abs() <= 0.6, "{reckoned}");
        pipe.connection = None;
        assert_eq!(make_up(pipe, &mut Off), None);
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        let asked = (question("rotating/joint-torque").unwrap().ask)(&scene, &mut Off);
        assert_eq!(asked, Answer::Missing(vec!["section[].string[].make_up"]));
    }
}
