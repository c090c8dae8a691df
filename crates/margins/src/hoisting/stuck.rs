//! For a string that is stuck: how much it stretches and twists by the depth to which it is free, so that what is measured
//! at surface can be read off as a free point.

use crate::geometry::Pipe;
use crate::rotating::{YOUNGS_MODULUS, worn_diameter};
use crate::{Answer, Figure, Scene};
use rigwright_physics::hoisting::PullStretch;
use rigwright_physics::tubular::{PolarMoment, SteelArea, Twist};
use rigwright_physics::{Formula, Kind, Recorder};
use rigwright_well::PartKind;
use std::f64::consts::TAU;

/// Shear modulus of steel. [Pa]
const SHEAR_MODULUS: f64 = 79.3e9;
/// Share of the smallest make-up torque that a stuck string is turned with (common practice). [-]
const TORQUE_SHARE: f64 = 0.8;
/// Parts of the string that the table looks at.
const PARTS: u32 = 12;

/// A run of like pipe, from the top down.
struct Run {
    top: f64,
    bottom: f64,
    steel_area: f64,
    polar_moment: f64,
}

/// Stretch and twist by free depth.
pub(super) fn stuck_pipe<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let pull = fit.well.margins.overpull;
    let make_ups = scene.string().iter().filter_map(|piece| match piece.pipe {
        Pipe::Part(part) => part.joint.and_then(|joint| joint.make_up_torque),
        Pipe::Casing(_) => None,
    });
    let torque = make_ups.fold(f64::INFINITY, f64::min) * TORQUE_SHARE;
    let torque = torque.is_finite().then_some(torque);
    rec.given("pull on top of the free string: the overpull wanted", pull, Kind::Force);
    if let Some(torque) = torque {
        rec.given("torque: four fifths of the smallest make-up torque in the string", torque, Kind::Torque);
    }
    rec.heading("the whole string free, piece by piece from the top down");
    let (mut runs, mut stretch, mut twist) = (Vec::new(), 0.0, 0.0);
    for piece in scene.string().iter().rev() {
        let Pipe::Part(part) = piece.pipe else { continue };
        // A bit is a plug: it neither stretches nor twists.
        if part.kind == PartKind::Bit {
            continue;
        }
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let (outer_diameter, inner_diameter) = (worn_diameter(part, rec), part.inner_diameter);
        let length = piece.bottom - piece.top;
        let steel_area = rec.take(SteelArea { outer_diameter, inner_diameter });
        stretch += rec.take(PullStretch { pull, length, youngs_modulus: YOUNGS_MODULUS, steel_area });
        let polar_moment = rec.take(PolarMoment { outer_diameter, inner_diameter });
        if let Some(torque) = torque {
            twist += rec.take(Twist { torque, length, shear_modulus: SHEAR_MODULUS, polar_moment });
        }
        runs.push(Run { top: piece.top, bottom: piece.bottom, steel_area, polar_moment });
    }
    rec.given("stretch of all of them", stretch, Kind::Depth);
    if torque.is_some() {
        rec.given("twist of all of them", twist, Kind::Angle);
    }
    rec.note(|| {
        "Measure from a tension already above that of the free string, and take the mean of up and down readings: in an inclined hole friction hides a part of the stretch.".into()
    });
    rec.note(|| "Joints are stiffer than the body: the real stretch is some hundredths less.".into());
    let free = |depth: f64| {
        let reached = |run: &Run| (run.bottom.min(depth) - run.top).max(0.0);
        let pulled = |run: &Run| {
            PullStretch { pull, length: reached(run), youngs_modulus: YOUNGS_MODULUS, steel_area: run.steel_area }.value()
        };
        let turned = |run: &Run| {
            let (shear_modulus, polar_moment) = (SHEAR_MODULUS, run.polar_moment);
            Twist { torque: torque.unwrap_or(0.0), length: reached(run), shear_modulus, polar_moment }.value() / TAU
        };
        (runs.iter().map(pulled).sum::<f64>(), runs.iter().map(turned).sum::<f64>())
    };
    const COLUMNS: &[(&str, Kind)] = &[("free down to", Kind::Depth), ("stretch", Kind::Diameter), ("turns", Kind::Ratio)];
    rec.table("stretch and turns by the depth to which the string is free", COLUMNS, || {
        let end = runs.last().map_or(0.0, |run| run.bottom);
        let mut depths: Vec<f64> = (1..=PARTS).map(|part| end * f64::from(part) / f64::from(PARTS)).collect();
        depths.extend(runs.iter().map(|run| run.bottom));
        depths.sort_by(f64::total_cmp);
        depths.dedup_by(|next, kept| *next - *kept < 0.01);
        let row = |depth: &f64| {
            let (stretch, turns) = free(*depth);
            vec![*depth, stretch, turns]
        };
        depths.iter().map(row).collect()
    });
    let mut figures = vec![
        Figure { name: "stretch of the whole string", value: stretch, kind: Kind::Diameter },
        Figure { name: "by a pull on top of the free string of", value: pull, kind: Kind::Force },
    ];
    if let Some(torque) = torque {
        figures.push(Figure { name: "turns of the whole string", value: twist / TAU, kind: Kind::Ratio });
        figures.push(Figure { name: "by a torque of", value: torque, kind: Kind::Torque });
    }
    Answer::Told(figures)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};
    use rigwright_physics::hoisting::{FreeSection, Steel, free_point_by_pull, free_point_by_twist};
    use rigwright_physics::{Line, Off, Working};

    const STEEL: Steel =
        Steel { youngs_modulus: YOUNGS_MODULUS, shear_modulus: SHEAR_MODULUS, poisson: 0.28, thermal_expansion: 12.4e-6 };

    /// Every row of the table read back by the free-point formulas is the depth of its row.
    #[test]
    fn law_rows_read_back_as_free_points() {
        let fit = crate::example("ostrick");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        let mut working = Working::default();
        let answer = stuck_pipe(&scene, &mut working);
        assert_eq!(answer, stuck_pipe(&scene, &mut Off));
        let Answer::Told(figures) = answer else { panic!("figures") };
        let told = |name: &str| figures.iter().find(|figure| figure.name == name).unwrap().value;
        let (pull, torque) = (told("by a pull on top of the free string of"), told("by a torque of"));
        let sections: Vec<FreeSection> = scene
            .string()
            .iter()
            .rev()
            .filter_map(|piece| match piece.pipe {
                Pipe::Part(part) if part.kind != PartKind::Bit => {
                    let (outer_diameter, inner_diameter) = (worn_diameter(part, &mut Off), part.inner_diameter);
                    let steel_area = SteelArea { outer_diameter, inner_diameter }.value();
                    let polar_moment = PolarMoment { outer_diameter, inner_diameter }.value();
                    Some(FreeSection { length: piece.bottom - piece.top, steel_area, polar_moment })
                }
                _ => None,
            })
            .collect();
        let rows = working.lines.iter().find_map(|line| match line {
            Line::Table { rows, .. } => Some(rows.clone()),
            _ => None,
        });
        for row in rows.unwrap() {
            let by_pull = free_point_by_pull(&sections, &STEEL, pull, row[1] * (1.0 - 1e-12), &mut Off).depth;
            let by_twist = free_point_by_twist(&sections, &STEEL, torque, row[2] * TAU * (1.0 - 1e-12), &mut Off).depth;
            assert!((by_pull - row[0]).abs() < 1e-6 && (by_twist - row[0]).abs() < 1e-6, "{row:?} {by_pull} {by_twist}");
        }
        // The constant of RP 7G: 735,000 lbf pull 1 in out of 1,000 ft of pipe that weighs 1 lb/ft plain (from memory: API RP 7G).
        // For the drill pipe alone, 30,000,000 psi against 206.8 GPa.
        let steel = sections[0].steel_area / 0.0254f64.powi(2);
        let pipe_feet = sections[0].length / 0.3048;
        let pounds = pull / (0.453_592_37 * rigwright_physics::STANDARD_GRAVITY);
        let inches = 735_294.0f64.recip() * pounds * pipe_feet / (3.4 * steel);
        let own =
            PullStretch { pull, length: sections[0].length, youngs_modulus: YOUNGS_MODULUS, steel_area: sections[0].steel_area };
        assert!((own.value() / 0.0254 / inches - 1.0).abs() < 2e-3);
    }

    #[test]
    fn law_without_make_up_torque_nothing_is_turned() {
        let mut fit = crate::example("ostrick");
        for part in fit.well.sections[2].string.iter_mut() {
            part.joint = None;
        }
        let basis = Basis::new(&fit);
        let Answer::Told(figures) = stuck_pipe(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut Off) else {
            panic!("figures")
        };
        assert_eq!(figures.len(), 2);
    }
}
