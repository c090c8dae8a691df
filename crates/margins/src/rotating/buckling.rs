//! Compression along the string against the loads that buckle it.
//!
//! Pipe that snakes and turns tires, so the beginning of snaking is the limit while rotating; pipe that slides may
//! snake and must not wind into a helix (both common practice). Collars stand in compression by design: they are shown
//! and not judged.

use super::body::{SAME, is_pipe, worn_diameter};
use crate::fields::drag::weight_in_mud;
use crate::geometry::{self, HolePiece, Pipe, PipePiece};
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{BuoyancyFactor, DragNode};
use rigwright_physics::rotating::{
    BucklingBand, CompressedPipe, HelicalSideForce, HelixBendingStress, HelixPitch, buckling_band,
};
use rigwright_physics::trajectory::Path;
use rigwright_physics::tubular::{STEEL_DENSITY, SecondMoment};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::Operation;

/// Young's modulus of steel. [Pa]
pub(crate) const YOUNGS_MODULUS: f64 = 206.8e9;
/// Less compression than this is none. [N]
const NONE: f64 = 1.0;
/// The formulas need some clearance. [m]
const LEAST_CLEARANCE: f64 = 1e-5;

/// A place where pipe is in compression.
struct Compressed<'a> {
    piece: PipePiece<'a>,
    depth: f64,
    compression: f64,
    pipe: CompressedPipe,
    band: BucklingBand,
}

pub(super) fn buckling<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let sliding = match scene.situation.operation {
        Operation::RunningIn | Operation::RunningCasing => true,
        Operation::Drilling => scene.situation.rotary_speed <= 0.0,
        _ => return Answer::DoesNotArise("the string hangs in tension"),
    };
    let drag = scene.drag(rec);
    // Tension grows upwards nearly everywhere: most situations have none in compression and end here.
    if !drag.nodes.iter().any(|node| node.effective_tension < -NONE) {
        return Answer::DoesNotArise("no part of the string is in compression");
    }
    let places = compressed(scene, &drag.nodes);
    rec.heading("effective compression against the loads that buckle the pipe, at every place in compression");
    rec.table("compression and the buckling band", COLUMNS, || {
        let row = |place: &Compressed| {
            let BucklingBand { snaking, helix_onset, helix_full } = place.band;
            vec![place.depth, place.compression, snaking, helix_onset, helix_full]
        };
        places.iter().map(row).collect()
    });
    let share = scene.fit().well.reserves.strength;
    let name = if sliding { "onset of a helix" } else { "onset of snaking while rotating" };
    let source = "Dawson & Paslay, Chen et al., in a vertical hole Lubinski; which of them is the limit is common practice";
    let judge = |place: &Compressed| {
        let capacity = if sliding { place.band.helix_onset } else { place.band.snaking };
        let limit = Limit { capacity, reserve: (share * capacity).max(1.0), name, source };
        Judged { demand: place.compression, limit, place: Place::Depth(place.depth), zero: 0.0 }
    };
    let judged = |place: &&Compressed| match place.piece.pipe {
        Pipe::Part(part) => is_pipe(part),
        Pipe::Casing(_) => true,
    };
    let rooms = places.iter().filter(judged).map(|place| (judge(place), place));
    let Some((governing, place)) = rooms.reduce(|worst, next| if next.0.room() < worst.0.room() { next } else { worst }) else {
        return Answer::DoesNotArise("only collars are in compression: they stand it by design");
    };
    if R::ON {
        show(scene, place, rec);
    }
    Answer::Judged(governing)
}

const COLUMNS: &[(&str, Kind)] = &[
    ("measured depth", Kind::Depth),
    ("effective compression", Kind::Force),
    ("snaking", Kind::Force),
    ("onset of a helix", Kind::Force),
    ("full helix", Kind::Force),
];

/// Every node in compression, once for each piece that it touches.
fn compressed<'a>(scene: &'a Scene, nodes: &[DragNode]) -> Vec<Compressed<'a>> {
    let fit = scene.fit();
    let hole = geometry::hole(fit, scene.situation.section, scene.situation.hole_depth);
    let buoyancy_factor = scene_buoyancy(scene, &mut Off);
    let mut places = Vec::new();
    for piece in scene.string() {
        let pressed = nodes
            .iter()
            .filter(|node| node.effective_tension < -NONE && (piece.top - SAME..=piece.bottom + SAME).contains(&node.depth));
        let outer = outer_diameter(piece, &mut Off);
        let section = (
            outer,
            second_moment(outer, piece.pipe.inner_diameter(), &mut Off),
            buoyed_weight(scene, piece, buoyancy_factor, &mut Off),
        );
        for node in pressed {
            let (outer_diameter, second_moment, buoyed_weight) = section;
            let pipe = CompressedPipe {
                youngs_modulus: YOUNGS_MODULUS,
                second_moment,
                buoyed_weight,
                clearance: clearance(&hole, node.depth, outer_diameter),
                inclination: fit.well.path.inclination_at(node.depth),
                build: build_rate(&fit.well.path, node.depth),
            };
            let band = buckling_band(&pipe, &mut Off);
            places.push(Compressed { piece: *piece, depth: node.depth, compression: -node.effective_tension, pipe, band });
        }
    }
    places
}

fn scene_buoyancy<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    rec.take(BuoyancyFactor { mud_density: scene.section().mud.weight, steel_density: STEEL_DENSITY })
}

/// What presses it on the wall, low side or high. [N/m]
fn buoyed_weight<R: Recorder>(scene: &Scene, piece: &PipePiece, buoyancy_factor: f64, rec: &mut R) -> f64 {
    weight_in_mud(scene, piece, buoyancy_factor, rec).abs()
}

fn second_moment<R: Recorder>(outer_diameter: f64, inner_diameter: f64, rec: &mut R) -> f64 {
    rec.take(SecondMoment { outer_diameter, inner_diameter })
}

fn outer_diameter<R: Recorder>(piece: &PipePiece, rec: &mut R) -> f64 {
    match piece.pipe {
        Pipe::Part(part) => worn_diameter(part, rec),
        Pipe::Casing(casing) => casing.outer_diameter,
    }
}

/// Half of what the hole is wider than the pipe body; where two pieces of hole meet, the wider one counts. [m]
fn clearance(hole: &[HolePiece], depth: f64, outer_diameter: f64) -> f64 {
    let here = hole.iter().filter(|piece| (piece.top..=piece.bottom).contains(&depth));
    let diameter = here.map(|piece| piece.diameter).fold(0.0, f64::max);
    (0.5 * (diameter - outer_diameter)).max(LEAST_CLEARANCE)
}

/// Curvature in the vertical plane, positive where inclination grows downwards. Out of the vertical every bend builds.
fn build_rate(path: &Path, depth: f64) -> f64 {
    let ([north, east, down], curvature) = (path.tangent_at(depth), path.curvature_at(depth));
    let level = north.hypot(east);
    if level < 1e-9 {
        return curvature[0].hypot(curvature[1]);
    }
    // The direction in which inclination grows, across the hole.
    let growing = [down * north / level, down * east / level, -level];
    growing.iter().zip(curvature).map(|(direction, part)| direction * part).sum()
}

/// The governing place in full, and what the helix does where there is one.
fn show<R: Recorder>(scene: &Scene, place: &Compressed, rec: &mut R) {
    let Compressed { piece, compression, pipe, band, .. } = place;
    rec.heading("the governing place");
    rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
    rec.given("measured depth", place.depth, Kind::Depth);
    rec.given("effective compression there", *compression, Kind::Force);
    let (outer_diameter, clearance) = (outer_diameter(piece, rec), pipe.clearance);
    second_moment(outer_diameter, piece.pipe.inner_diameter(), rec);
    let buoyancy_factor = scene_buoyancy(scene, rec);
    buoyed_weight(scene, piece, buoyancy_factor, rec);
    rec.given("half of what the hole is wider than the pipe body", clearance, Kind::Diameter);
    rec.given("inclination of the hole", pipe.inclination, Kind::Angle);
    rec.given("curvature, positive where the hole builds", pipe.build, Kind::Curvature);
    buckling_band(pipe, rec);
    if *compression > band.helix_onset {
        let (youngs_modulus, second_moment, compression) = (pipe.youngs_modulus, pipe.second_moment, *compression);
        rec.note(|| "The pipe winds: the helix presses on the wall and bends the pipe on top of what the march reckons.".into());
        rec.take(HelicalSideForce { clearance, compression, youngs_modulus, second_moment });
        rec.take(HelixPitch { youngs_modulus, second_moment, compression });
        rec.take(HelixBendingStress { outer_diameter, clearance, compression, second_moment });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, sweep};
    use rigwright_physics::{Line, Working};
    use rigwright_well::Fit;

    const POUND_FORCE: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;

    fn ask(fit: &Fit, section: usize, operation: Operation) -> Answer {
        let basis = Basis::new(fit);
        let bottom = fit.well.sections[section].bottom;
        buckling(&Scene::new(&basis, sweep::situation(fit, section, operation, bottom, bottom)), &mut Off)
    }

    /// Collars carry the weight on bit of the example, so nothing above them is pressed.
    #[test]
    fn law_no_compression_no_question() {
        let fit = crate::example("ostrick");
        assert_eq!(ask(&fit, 2, Operation::RunningIn), Answer::DoesNotArise("no part of the string is in compression"));
        assert_eq!(ask(&fit, 2, Operation::PullingOut), Answer::DoesNotArise("the string hangs in tension"));
        let drilling = ask(&fit, 2, Operation::Drilling);
        assert_eq!(drilling, Answer::DoesNotArise("only collars are in compression: they stand it by design"));
    }

    /// Lubinski's 1.94 (E I w²)^(1/3) by hand, for heavy-weight pipe of 5 x 3 in in a vertical hole: I = 26.7035 in⁴,
    /// 49.3 lb/ft in mud of 11.5 ppg 40.65 lbf/ft, so 1.94 (30e6 x 26.7035 x (40.65/12)²)^(1/3) = 4,064 lbf.
    #[test]
    fn published_lubinski_first_order_in_a_vertical_hole() {
        let mut fit = crate::example("ostrick");
        fit.well.sections[2].drilling.weight_on_bit = 50_000.0 * POUND_FORCE;
        // Pumps off: flowing mud and jets would lift the string. No friction: wound pipe would hold a little of the weight.
        fit.well.sections[2].drilling.flow_rate = 0.0;
        (fit.well.friction.cased, fit.well.friction.open) = (0.0, 0.0);
        let answer = ask(&fit, 2, Operation::Drilling);
        let judged = answer.judged().unwrap();
        let capacity = judged.limit.capacity / POUND_FORCE;
        assert!((capacity / 4_064.0 - 1.0).abs() < 1e-3, "{capacity}");
        // At the lower end of the heavy-weight pipe: weight on bit less the collars' weight in mud.
        let collars = &fit.well.sections[2].string[..2];
        let buoyancy = 1.0 - fit.well.sections[2].mud.weight / STEEL_DENSITY;
        let carried: f64 = collars.iter().map(|part| part.length * part.linear_mass).sum::<f64>()
            * buoyancy
            * rigwright_physics::STANDARD_GRAVITY;
        assert!((judged.demand + carried - fit.well.sections[2].drilling.weight_on_bit).abs() < 1.0);
        assert_eq!(answer.verdict(), Verdict::Short);
    }

    /// Sliding the same push is held against the helix: in an inclined hole √2 of what makes it snake.
    #[test]
    fn law_sliding_pipe_bears_more_than_turning_pipe() {
        let mut fit = crate::example("tolvane");
        fit.well.sections[2].drilling.weight_on_bit = 2e5;
        let turning = *ask(&fit, 2, Operation::Drilling).judged().unwrap();
        fit.well.sections[2].drilling.rotary_speed = 0.0;
        let sliding = *ask(&fit, 2, Operation::Drilling).judged().unwrap();
        assert_eq!(turning.place, sliding.place);
        assert!((turning.demand / sliding.demand - 1.0).abs() < 0.15, "friction presses a little more");
        // The hole drops by a degree over the section, which moves both limits by a little.
        let ratio = sliding.limit.capacity / turning.limit.capacity;
        assert!((ratio - std::f64::consts::SQRT_2).abs() < 0.02, "{ratio}");
    }

    #[test]
    fn law_the_verdict_flips_where_compression_meets_the_limit() {
        let fit = crate::example("tolvane");
        let room = |weight: f64| {
            let mut fit = fit.clone();
            fit.well.sections[2].drilling.weight_on_bit = weight;
            ask(&fit, 2, Operation::Drilling).room().unwrap_or(1e9)
        };
        let edge = rigwright_physics::numerics::root(room, 1.2e5, 6e5).unwrap();
        let mut low = fit.clone();
        low.well.sections[2].drilling.weight_on_bit = edge * (1.0 - 1e-9);
        assert_eq!(ask(&low, 2, Operation::Drilling).verdict(), Verdict::Thin);
        low.well.sections[2].drilling.weight_on_bit = edge * (1.0 + 1e-9);
        assert_eq!(ask(&low, 2, Operation::Drilling).verdict(), Verdict::Short);
    }

    /// A bend seen along the hole: twice the bend at twice the rate, positive where inclination grows.
    #[test]
    fn law_build_rate_is_the_growth_of_inclination() {
        let fit = crate::example("tolvane");
        let path = &fit.well.path;
        for depth in [1010.0, 1200.0, 1400.0, 2000.0, 3500.0] {
            let growth = (path.inclination_at(depth + 0.5) - path.inclination_at(depth - 0.5)) / 1.0;
            assert!((build_rate(path, depth) - growth).abs() < 1e-6, "{depth} {growth}");
        }
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        let mut fit = crate::example("tolvane");
        fit.well.sections[2].drilling.weight_on_bit = 4e5;
        let basis = Basis::new(&fit);
        let bottom = fit.well.total_depth();
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Drilling, bottom, bottom));
        let mut working = Working::default();
        assert_eq!(buckling(&scene, &mut working), buckling(&scene, &mut Off));
        let taken =
            |slug: &str| working.lines.iter().any(|line| matches!(line, Line::Step { record, .. } if record.slug == slug));
        assert!(taken("curved-buckling") && taken("vertical-buckling") && taken("helical-side-force"));
    }
}
