//! Rotary speeds at which the string swings: advice by the rules of API RP 7G, never an alarm.

use crate::geometry::Pipe;
use crate::{Answer, Figure, Scene};
use rigwright_physics::rotating::{CRITICAL_SPREAD, LongitudinalSpeed, SwingSpeed, TwistPeriod};
use rigwright_physics::tubular::{PolarMoment, STEEL_DENSITY};
use rigwright_physics::{Formula, Kind, Recorder};
use rigwright_well::PartKind;

/// Shear modulus of steel. [Pa]
const SHEAR_MODULUS: f64 = 79.3e9;

pub(super) fn critical_speed<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let speed = scene.section().drilling.rotary_speed;
    if speed <= 0.0 {
        return Answer::DoesNotArise("the string does not turn");
    }
    let mut figures = vec![Figure { name: "wanted", value: speed, kind: Kind::RotarySpeed }];
    rec.given("rotary speed wanted", speed, Kind::RotarySpeed);
    let (mut pipe, mut heavier) = ((0.0, 0.0), (0.0, 0.0));
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        let (outer_diameter, inner_diameter) = (part.outer_diameter, part.inner_diameter);
        let length = piece.bottom - piece.top;
        if part.kind == PartKind::DrillPipe {
            rec.heading("sideways, between the joints of drill pipe that hangs free");
            rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
            let swing = rec.take(SwingSpeed { joint: part.joint_length, outer_diameter, inner_diameter });
            figures.push(Figure { name: "sideways", value: swing, kind: Kind::RotarySpeed });
            pipe = longer(pipe, (length, PolarMoment { outer_diameter, inner_diameter }.value()));
        } else if part.kind != PartKind::Bit {
            heavier = (heavier.0 + length, heavier.1 + length * PolarMoment { outer_diameter, inner_diameter }.value());
        }
    }
    rec.heading("along the string");
    let length = scene.situation.bit_depth.max(1.0);
    let along = rec.take(LongitudinalSpeed { length });
    figures.push(Figure { name: "along", value: along, kind: Kind::RotarySpeed });
    rec.given("stay off by this share of a critical speed", CRITICAL_SPREAD, Kind::Fraction);
    if pipe.0 > 0.0 && heavier.0 > 0.0 {
        rec.heading("around: the period in which the string twists to and fro when the bit sticks and slips");
        let period = rec.take(TwistPeriod {
            length: pipe.0,
            polar_moment: pipe.1,
            assembly_length: heavier.0,
            assembly_polar_moment: heavier.1 / heavier.0,
            shear_modulus: SHEAR_MODULUS,
            steel_density: STEEL_DENSITY,
        });
        figures.push(Figure { name: "twist period", value: period, kind: Kind::Time });
    }
    Answer::Told(figures)
}

/// Two runs of drill pipe as one of their mean stiffness.
fn longer(pipe: (f64, f64), more: (f64, f64)) -> (f64, f64) {
    let length = pipe.0 + more.0;
    (length, (pipe.0 * pipe.1 + more.0 * more.1) / length)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};
    use rigwright_physics::Off;

    /// 5 in 19.50 pipe in joints of 31 ft: 4,760,000/372² √(25 + 4.276²) = 226 rpm; 11,000 ft: 258,000/11,000 = 23.5 rpm
    /// (API RP 7G by hand).
    #[test]
    fn published_rp_7g_rules_by_hand() {
        let fit = crate::example("ostrick");
        let basis = Basis::new(&fit);
        let Answer::Told(figures) = critical_speed(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut Off) else {
            panic!("told");
        };
        let rpm = std::f64::consts::PI / 30.0;
        let named = |name: &str| figures.iter().find(|figure| figure.name == name).unwrap().value;
        assert!((named("sideways") / rpm - 226.3).abs() < 0.1, "{}", named("sideways") / rpm);
        assert!((named("along") / rpm - 23.45).abs() < 0.01);
        // A quarter wave through the pipe alone takes 4 L/c = 4 x 3050 m/3178 m/s = 3.8 s; the collars make it slower.
        assert!(named("twist period") > 3.8 && named("twist period") < 6.0);
    }

    #[test]
    fn law_two_runs_of_pipe_are_as_stiff_as_their_mean() {
        assert_eq!(longer((0.0, 0.0), (100.0, 2.0)), (100.0, 2.0));
        assert_eq!(longer((100.0, 2.0), (300.0, 4.0)), (400.0, 3.5));
    }
}
