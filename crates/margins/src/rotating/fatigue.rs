//! Rotating pipe in the bends of the hole: the sharpest bend that it turns in without end, by API RP 7G.
//!
//! Off bottom, where the tension at each bend is largest. RP 7G knows drill pipe of grades E and S-135 in air; grades
//! between them take the line of E (from memory). The share of life that a bend uses up is shown as an indication.

use super::body::{SAME, worn_diameter};
use super::buckling::YOUNGS_MODULUS;
use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene, sweep};
use rigwright_physics::hoisting::DragNode;
use rigwright_physics::rotating::{
    BendingNumber, JointSideForce, JointedPipe, Passage, PermissibleDogleg, RevolutionsInBend, damage,
    permissible_bending_stress, stress_in_bend,
};
use rigwright_physics::tubular::{SecondMoment, SteelArea};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::{Operation, Part, PartKind};

/// A hole is straight below this curvature: a hundredth of a degree in thirty metres. [rad/m]
const STRAIGHT: f64 = 0.01 / 180.0 * std::f64::consts::PI / 30.0;

/// Pipe in a bend.
struct Bent<'a> {
    part: &'a Part,
    node: DragNode,
}

pub(super) fn fatigue<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let section = scene.section();
    if section.drilling.rotary_speed <= 0.0 {
        return Answer::DoesNotArise("the string does not turn");
    }
    let (index, bottom) = (scene.situation.section, section.bottom);
    let turning = Scene::new(scene.basis, sweep::situation(fit, index, Operation::Circulating, bottom, bottom));
    let nodes = &turning.drag(&mut Off).nodes;
    let share = fit.well.reserves.strength;
    let mut worst: Option<(Bent, Judged)> = None;
    for piece in turning.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if part.kind != PartKind::DrillPipe {
            continue;
        }
        let Some(yield_strength) = part.yield_strength else { return Answer::Missing(vec!["section[].string[].grade"]) };
        for node in nodes.iter().filter(|node| (piece.top - SAME..piece.bottom - SAME).contains(&node.depth)) {
            if node.curvature < STRAIGHT {
                continue;
            }
            let bent = Bent { part, node: *node };
            let capacity = permissible(&bent, yield_strength, &mut Off);
            let limit = Limit {
                capacity,
                // More than nothing, so that a permissible bend of nought is passed by any bend.
                reserve: (share * capacity).max(STRAIGHT),
                name: "permissible dogleg of the drill pipe",
                source: "API RP 7G, 16th ed. 1998 (Lubinski), in air",
            };
            let judged = Judged { demand: node.curvature, limit, place: Place::Depth(node.depth), zero: 0.0 };
            if worst.as_ref().is_none_or(|(_, most)| judged.room() < most.room()) {
                worst = Some((bent, judged));
            }
        }
    }
    let Some((bent, judged)) = worst else { return Answer::DoesNotArise("no drill pipe turns in a bend") };
    if R::ON {
        show(scene, &bent, rec);
    }
    Answer::Judged(judged)
}

/// Sharpest bend that the pipe turns in without end at this tension. [rad/m]
fn permissible<R: Recorder>(bent: &Bent, yield_strength: f64, rec: &mut R) -> f64 {
    let (part, tension) = (bent.part, bent.node.effective_tension.max(0.0));
    let (outer_diameter, inner_diameter) = (worn_diameter(part, rec), part.inner_diameter);
    let steel_area = rec.take(SteelArea { outer_diameter, inner_diameter });
    let tensile_stress = tension / steel_area;
    rec.given("stress of the tension over the area", tensile_stress, Kind::Stress);
    let bending_stress = permissible_bending_stress(yield_strength, tensile_stress, rec);
    let second_moment = rec.take(SecondMoment { outer_diameter, inner_diameter });
    let (half_joint, youngs_modulus) = (0.5 * part.joint_length, YOUNGS_MODULUS);
    let bending_number = rec.take(BendingNumber { tension, half_joint, youngs_modulus, second_moment });
    rec.take(PermissibleDogleg { bending_stress, youngs_modulus, outer_diameter, bending_number })
}

fn show<R: Recorder>(scene: &Scene, bent: &Bent, rec: &mut R) {
    let Bent { part, node } = bent;
    rec.heading("the bend that uses most of what is permissible, string turning off bottom");
    rec.stretch(|| part.name.clone(), node.depth, node.depth);
    rec.given("effective tension there", node.effective_tension, Kind::Force);
    rec.given("curvature of the hole", node.curvature, Kind::Curvature);
    rec.given("length of a joint", part.joint_length, Kind::Depth);
    permissible(bent, part.yield_strength.unwrap_or(0.0), rec);
    rec.heading("force with which one joint is pressed on the wall");
    let tension = node.effective_tension.max(0.0);
    rec.take(JointSideForce { tension, curvature: node.curvature, joint: part.joint_length });
    rec.heading("what drilling the section uses up of the life of a joint that passes this bend: an indication");
    let section = scene.section();
    let pipe = JointedPipe {
        youngs_modulus: YOUNGS_MODULUS,
        outer_diameter: part.outer_diameter,
        second_moment: SecondMoment { outer_diameter: part.outer_diameter, inner_diameter: part.inner_diameter }.value(),
        joint_diameter: part.joint.map_or(part.outer_diameter, |joint| joint.outer_diameter),
        half_joint: 0.5 * part.joint_length,
    };
    let bending_stress = stress_in_bend(&pipe, tension, node.curvature, rec);
    let length = (section.bottom - section.top).min(bend_length(scene, node));
    rec.given("length of the bend that the joint passes", length, Kind::Depth);
    let (rotary_speed, penetration_rate) = (section.drilling.rotary_speed, section.drilling.penetration_rate);
    let revolutions = rec.take(RevolutionsInBend { rotary_speed, length, penetration_rate });
    damage(&[Passage { bending_stress, revolutions }], rec);
}

/// Length of the arc of the path that the node is the top of or lies in. [m]
fn bend_length(scene: &Scene, node: &DragNode) -> f64 {
    let below = node.depth + SAME;
    let stations = scene.fit().well.path.stations();
    let next = stations.partition_point(|station| station.depth <= below);
    match (next.checked_sub(1).and_then(|above| stations.get(above)), stations.get(next)) {
        (Some(above), Some(next)) => next.depth - above.depth,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict};
    use rigwright_physics::{Line, Working};
    use rigwright_well::Fit;

    fn ask(fit: &Fit) -> Answer {
        let basis = Basis::new(fit);
        fatigue(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    #[test]
    fn law_a_straight_hole_raises_no_question() {
        assert_eq!(ask(&crate::example("ostrick")), Answer::DoesNotArise("no drill pipe turns in a bend"));
        let mut fit = crate::example("tolvane");
        fit.well.sections[2].drilling.rotary_speed = 0.0;
        assert_eq!(ask(&fit), Answer::DoesNotArise("the string does not turn"));
    }

    /// The worst place lies in the build of the example: 8 degrees in 150 m, and below what RP 7G permits there at the
    /// tension of the string, by hand: 20,000 (1 - σ/145,000) psi of bending, 2/(E D) tanh(KL)/KL.
    #[test]
    fn law_permissible_dogleg_by_hand() {
        let fit = crate::example("tolvane");
        let found = *ask(&fit).judged().unwrap();
        let curvature = 8.0_f64.to_radians() / 150.0;
        assert!((found.demand / curvature - 1.0).abs() < 1e-2, "the azimuth turns a little too");
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Circulating, bottom, bottom));
        let tension = scene.drag(&mut Off).at(found.place.depth().unwrap()).0;
        let (inch, psi) = (0.0254_f64, 6_894.757_29_f64);
        // Premium: 0.8 of the wall of 0.362 in is left.
        let outer = (4.276 + 2.0 * 0.8 * 0.362) * inch;
        let inner = 4.276 * inch;
        let area = std::f64::consts::FRAC_PI_4 * (outer * outer - inner * inner);
        let inertia = std::f64::consts::PI / 64.0 * (outer.powi(4) - inner.powi(4));
        let bending = 20_000.0 * (1.0 - tension / area / psi / 145_000.0) * psi;
        let number = 15.5 * 0.3048 * (tension / (206.8e9 * inertia)).sqrt();
        let permissible = 2.0 * bending / (206.8e9 * outer) * number.tanh() / number;
        assert!((found.limit.capacity / permissible - 1.0).abs() < 1e-6, "{found:?} {permissible}");
    }

    #[test]
    fn law_the_verdict_flips_where_the_bend_is_just_permissible() {
        let mut fit = crate::example("tolvane");
        let room = |length: f64, fit: &mut Fit| {
            for part in fit.well.sections[2].string.iter_mut() {
                part.joint_length = length;
            }
            ask(fit).room().unwrap()
        };
        // Longer joints are straightened more and bend more sharply at their ends.
        assert!(room(9.0, &mut fit) > room(13.0, &mut fit));
        fit.well.sections[2].mud.weight = 1_000.0;
        let edge = rigwright_physics::numerics::root(|length| room(length, &mut fit.clone()), 2.0, 90.0).unwrap();
        assert!(room(edge * (1.0 - 1e-9), &mut fit) > 0.0);
        assert_eq!(ask(&fit).verdict(), Verdict::Thin);
        assert!(room(edge * (1.0 + 1e-9), &mut fit) < 0.0);
        assert_eq!(ask(&fit).verdict(), Verdict::Short);
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        let mut working = Working::default();
        assert_eq!(fatigue(&scene, &mut working), fatigue(&scene, &mut Off));
        let length = working.lines.iter().find_map(|line| match line {
            Line::Given { what: "length of the bend that the joint passes", value, .. } => Some(*value),
            _ => None,
        });
        assert!((length.unwrap() - 150.0).abs() < 1e-6, "from station to station");
    }
}
