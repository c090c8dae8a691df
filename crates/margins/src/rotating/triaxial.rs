//! Tension, torsion, bending and pressure together, everywhere along the pipe, as one equivalent stress beside the
//! single strengths of API RP 7G.
//!
//! Pressures are counted from the one outside: pressure that is the same on all sides stresses no steel. The string
//! carries its collars' own weight; collars themselves are governed by their connections and not judged.

use super::body::{SAME, is_pipe, worn_diameter};
use super::buckling::YOUNGS_MODULUS;
use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{DragNode, TrueTension};
use rigwright_physics::rotating::{BendingNumber, CurvatureAtJoint, PipeLoad, TriaxialDesignFactor};
use rigwright_physics::tubular::{
    BurstStrength, PolarMoment, SecondMoment, SteelArea, TensionStrength, TorsionStrength, WallThickness,
};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Operation, Part, WearClass};

/// Pressure in the string over the one outside it, straight from surface to the bit. [Pa]
#[derive(Clone, Copy)]
struct Inside {
    surface: f64,
    bit: f64,
    bit_depth: f64,
}

impl Inside {
    fn at(&self, depth: f64) -> f64 {
        self.surface + (self.bit - self.surface) * (depth / self.bit_depth).clamp(0.0, 1.0)
    }
}

/// The body of a part, as it is worn.
struct Body<'a> {
    part: &'a Part,
    yield_strength: f64,
    outer_diameter: f64,
    steel_area: f64,
    polar_moment: f64,
    second_moment: f64,
}

fn body<'a, R: Recorder>(part: &'a Part, rec: &mut R) -> Option<Body<'a>> {
    let yield_strength = part.yield_strength?;
    let (outer_diameter, inner_diameter) = (worn_diameter(part, rec), part.inner_diameter);
    Some(Body {
        part,
        yield_strength,
        outer_diameter,
        steel_area: rec.take(SteelArea { outer_diameter, inner_diameter }),
        polar_moment: rec.take(PolarMoment { outer_diameter, inner_diameter }),
        second_moment: rec.take(SecondMoment { outer_diameter, inner_diameter }),
    })
}

/// What loads a body at a node.
#[derive(Clone, Copy)]
struct Loaded {
    node: DragNode,
    /// Curvature of the hole there. [rad/m]
    curvature: f64,
    /// Pressure inside over the one outside. [Pa]
    pressure: f64,
}

fn load<R: Recorder>(body: &Body, loaded: &Loaded, rec: &mut R) -> PipeLoad {
    let Loaded { node, curvature, pressure } = *loaded;
    let tension = node.effective_tension;
    // In tension the pipe is straighter between its joints and sharper at them.
    let bent = if tension > 0.0 && curvature > 0.0 {
        let (half_joint, second_moment) = (0.5 * body.part.joint_length, body.second_moment);
        let bending_number = rec.take(BendingNumber { tension, half_joint, youngs_modulus: YOUNGS_MODULUS, second_moment });
        rec.take(CurvatureAtJoint { curvature, bending_number })
    } else {
        curvature
    };
    let inner_area = std::f64::consts::FRAC_PI_4 * body.part.inner_diameter * body.part.inner_diameter;
    let true_tension = rec.take(TrueTension {
        effective_tension: tension,
        outside_pressure: 0.0,
        outer_area: inner_area + body.steel_area,
        inside_pressure: pressure,
        inner_area,
    });
    PipeLoad {
        inner_diameter: body.part.inner_diameter,
        wall: 0.5 * (body.outer_diameter - body.part.inner_diameter),
        steel_area: body.steel_area,
        polar_moment: body.polar_moment,
        youngs_modulus: YOUNGS_MODULUS,
        inside_pressure: pressure,
        outside_pressure: 0.0,
        true_tension,
        curvature: bent,
        torque: node.torque,
    }
}

pub(super) fn triaxial<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    match scene.situation.operation {
        Operation::ShutIn => return Answer::DoesNotArise("the string hangs still, as at a connection"),
        // A liner hangs on drill pipe.
        Operation::RunningCasing if !scene.string().iter().any(|piece| matches!(piece.pipe, Pipe::Part(_))) => {
            return Answer::DoesNotArise("casing has its own load cases: see control/casing-triaxial");
        }
        _ => {}
    }
    let inside = match inside(scene) {
        Ok(inside) => inside,
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    let drag = scene.drag(rec);
    let mut worst: Option<(f64, Body, Loaded)> = None;
    let mut missing = false;
    for piece in scene.string().iter().rev() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !is_pipe(part) {
            continue;
        }
        let Some(body) = body(part, &mut Off) else {
            missing = true;
            continue;
        };
        let mut here: Option<(f64, Loaded)> = None;
        for loaded in governing_places(drag.heaviest(), piece.top, piece.bottom, inside) {
            let stress = load(&body, &loaded, &mut Off).worst(&mut Off).stress;
            if here.is_none_or(|(most, _)| stress > most) {
                here = Some((stress, loaded));
            }
        }
        let Some((stress, loaded)) = here else { continue };
        let share = stress / body.yield_strength;
        if worst.as_ref().is_none_or(|(most, body, _)| share > most / body.yield_strength) {
            worst = Some((stress, body, loaded));
        }
    }
    let Some((demand, body, loaded)) = worst else {
        return if missing {
            Answer::Missing(vec!["section[].string[].grade"])
        } else {
            Answer::DoesNotArise("no drill pipe or heavy-weight pipe in the hole")
        };
    };
    if R::ON {
        show(scene, &body, &loaded, rec);
    }
    let capacity = body.yield_strength;
    if missing && demand <= capacity {
        // A part that nobody knows may be the weaker one, unless a known one is passed already.
        return Answer::Missing(vec!["section[].string[].grade"]);
    }
    let limit = Limit {
        capacity,
        reserve: scene.fit().well.reserves.strength * capacity,
        name: "yield strength of the pipe body",
        source: "equivalent stress of von Mises; the grade of the pipe",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Depth(loaded.node.depth), zero: 0.0 })
}

/// Pressure inside over outside; the entry without which it is not known.
fn inside(scene: &Scene) -> Result<Inside, &'static str> {
    let bit_depth = scene.situation.bit_depth.max(1.0);
    if scene.situation.flow_rate <= 0.0 {
        return Ok(Inside { surface: 0.0, bit: 0.0, bit_depth });
    }
    let flow = scene.flow(&mut Off);
    if let Some(entry) = flow.missing {
        return Err(entry);
    }
    let surface = flow.standpipe - flow.surface_loss - scene.situation.back_pressure;
    Ok(Inside { surface, bit: flow.bit_loss + flow.tool_loss, bit_depth })
}

/// The places between two depths that can govern, from the top down: tension, torque and pressure grow upwards, so that
/// a place deeper down governs only where the hole is bent more sharply than anywhere above it, or at the lower end,
/// where pipe may be in compression.
fn governing_places(nodes: &[DragNode], top: f64, bottom: f64, inside: Inside) -> impl Iterator<Item = Loaded> {
    let (top, bottom) = (top - SAME, bottom + SAME);
    let first = nodes.partition_point(|node| node.depth > bottom);
    let last = nodes.partition_point(|node| node.depth >= top);
    let (mut sharpest, mut above) = (f64::NEG_INFINITY, nodes.get(last).map_or(0.0, |node| node.curvature));
    (first..last).rev().filter_map(move |index| {
        let node = &nodes[index];
        // The bend of the step below is this node's own; the one above counts too, from the first node up.
        let from_above = std::mem::replace(&mut above, node.curvature);
        if node.curvature <= sharpest && from_above <= sharpest && index != first {
            return None;
        }
        let from_above = if node.depth > top + 2.0 * SAME { from_above } else { 0.0 };
        let curvature = if node.depth < bottom - 2.0 * SAME { node.curvature.max(from_above) } else { from_above };
        let governs = curvature > sharpest || index == first;
        sharpest = sharpest.max(curvature);
        governs.then(|| Loaded { node: *node, curvature, pressure: inside.at(node.depth) })
    })
}

/// The governing place in full, with the single strengths beside it.
fn show<R: Recorder>(scene: &Scene, body: &Body, loaded: &Loaded, rec: &mut R) {
    let Loaded { node, curvature, pressure } = *loaded;
    rec.heading("what loads the pipe at its worst place");
    rec.stretch(|| body.part.name.clone(), node.depth, node.depth);
    rec.given("effective tension", node.effective_tension, Kind::Force);
    rec.given("torque", node.torque, Kind::Torque);
    rec.given("curvature of the hole", curvature, Kind::Curvature);
    rec.given("length of a joint", body.part.joint_length, Kind::Depth);
    if scene.situation.flow_rate > 0.0 {
        rec.note(|| "Pressure inside over outside runs straight from the standpipe to the bit.".into());
    }
    rec.given("pressure inside over the one outside", pressure, Kind::Pressure);
    rec.heading("the body as it is worn");
    let Some(body) = self::body(body.part, rec) else { return };
    let (part, yield_strength, outer_diameter) = (body.part, body.yield_strength, body.outer_diameter);
    rec.given("yield strength", yield_strength, Kind::Stress);
    rec.heading("all together");
    let equivalent_stress = load(&body, loaded, rec).worst(rec).stress;
    rec.take(TriaxialDesignFactor { yield_strength, equivalent_stress: equivalent_stress.max(1.0) });
    rec.heading("beside it, each strength alone (API RP 7G)");
    let inner_diameter = part.inner_diameter;
    rec.take(TensionStrength { yield_strength, steel_area: body.steel_area });
    rec.take(TorsionStrength { yield_strength, outer_diameter, inner_diameter });
    let wall = rec.take(WallThickness { outer_diameter, inner_diameter });
    let wall_share = if part.class == WearClass::New { 0.875 } else { 1.0 };
    rec.take(BurstStrength { yield_strength, wall, outer_diameter: part.outer_diameter, wall_share });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, sweep};
    use rigwright_physics::{Line, Working};
    use rigwright_well::Fit;

    const KSI: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY / (0.0254 * 0.0254) * 1000.0;

    fn ask(fit: &Fit, operation: Operation, depth: f64) -> Judged {
        let basis = Basis::new(fit);
        let scene = Scene::new(&basis, sweep::situation(fit, 2, operation, depth, depth));
        *triaxial(&scene, &mut Off).judged().unwrap()
    }

    /// A still string in a straight hole: the stress is its tension over the area of its steel, by hand from the
    /// example: 5 in S-135 premium has 4.154 in² (560,800 lbf over 135 ksi).
    #[test]
    fn law_a_still_string_is_pulled_only() {
        let fit = crate::example("ostrick");
        let found = ask(&fit, Operation::Connection, 3000.0);
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Connection, 3000.0, 3000.0));
        let drag = scene.drag(&mut Off);
        let heavy = scene.string().iter().find(|piece| piece.pipe.name() == "heavy-weight").unwrap();
        let area = std::f64::consts::FRAC_PI_4 * (5.0f64.powi(2) - 3.0f64.powi(2)) * 0.0254 * 0.0254;
        let (pipe, weak) = (drag.surface_tension / (4.154 * 0.0254 * 0.0254), drag.at(heavy.top).0 / area);
        // Heavy-weight pipe is of 55 ksi: whichever uses more of its own yield strength governs.
        let share = (pipe / (135.0 * KSI)).max(weak / (55.0 * KSI));
        assert!((found.demand / found.limit.capacity / share - 1.0).abs() < 1e-3, "{found:?} {share}");
    }

    /// The places that are looked at are as bad as the worst of all of them, in every operation of a bent hole.
    #[test]
    fn law_no_other_place_is_worse() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        for operation in [Operation::Drilling, Operation::Circulating, Operation::PullingOut, Operation::RunningIn] {
            let scene = Scene::new(&basis, sweep::situation(&fit, 2, operation, bottom, bottom));
            let (found, inside) = (*triaxial(&scene, &mut Off).judged().unwrap(), inside(&scene).unwrap());
            let nodes = &scene.drag(&mut Off).nodes;
            for piece in scene.string() {
                let Pipe::Part(part) = piece.pipe else { continue };
                let Some(body) = body(part, &mut Off).filter(|_| is_pipe(part)) else { continue };
                for pair in nodes.windows(2).filter(|pair| pair[1].depth >= piece.top && pair[0].depth <= piece.bottom) {
                    let curvature = pair[1].curvature;
                    for node in [pair[0], pair[1]] {
                        let loaded = Loaded { node, curvature, pressure: inside.at(node.depth) };
                        let share = load(&body, &loaded, &mut Off).worst(&mut Off).stress / body.yield_strength;
                        assert!(share <= found.demand / found.limit.capacity * (1.0 + 1e-12), "{operation:?} {node:?}");
                    }
                }
            }
        }
    }

    /// The step below a node tells the bend of the hole there.
    #[test]
    fn law_nodes_know_the_bend_of_the_hole() {
        let fit = crate::example("tolvane");
        let path = &fit.well.path;
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Connection, 3000.0, 3000.0));
        for pair in scene.drag(&mut Off).nodes.windows(2) {
            let middle = path.dogleg_severity_at(0.5 * (pair[0].depth + pair[1].depth));
            assert!((pair[1].curvature - middle).abs() < 1e-12);
        }
    }

    #[test]
    fn law_the_verdict_flips_at_the_yield_strength() {
        let mut fit = crate::example("tolvane");
        let bottom = fit.well.total_depth();
        let found = ask(&fit, Operation::Drilling, bottom);
        let strength = |fit: &mut Fit, yield_strength: f64| {
            for part in fit.well.sections[2].string.iter_mut().filter(|part| part.yield_strength.is_some()) {
                part.yield_strength = Some(yield_strength);
            }
        };
        let verdict = |fit: &Fit| {
            let basis = Basis::new(fit);
            triaxial(&Scene::new(&basis, sweep::situation(fit, 2, Operation::Drilling, bottom, bottom)), &mut Off).verdict()
        };
        // One strength for all parts: the place with the most stress governs.
        strength(&mut fit, found.limit.capacity);
        let most = ask(&fit, Operation::Drilling, bottom).demand;
        strength(&mut fit, most * (1.0 - 1e-12));
        assert_eq!(verdict(&fit), Verdict::Short);
        strength(&mut fit, most * (1.0 + 1e-12));
        assert_eq!(verdict(&fit), Verdict::Thin);
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        let fit = crate::example("tolvane");
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Drilling, bottom, bottom));
        let mut working = Working::default();
        let answer = triaxial(&scene, &mut working);
        assert_eq!(answer, triaxial(&scene, &mut Off));
        let last = working.lines.iter().rev().find_map(|line| match line {
            Line::Step { record, inputs, .. } if record.slug == "triaxial-design-factor" => Some(inputs[1]),
            _ => None,
        });
        assert!((last.unwrap() / answer.judged().unwrap().demand - 1.0).abs() < 1e-12);
    }
}
