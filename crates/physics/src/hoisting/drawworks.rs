//! Drawworks: power, speed and pull, and what a moving or a stopped load does.

use crate::{Formula, FormulaRecord, STANDARD_GRAVITY, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    HookPower::RECORD,
    DrawworksPower::RECORD,
    BlockSpeedByPower::RECORD,
    BlockSpeedByLine::RECORD,
    DrumDiameter::RECORD,
    LinePull::RECORD,
    LineSpeed::RECORD,
    InertiaLoad::RECORD,
    ShockLoad::RECORD,
    StoppingDistance::RECORD,
    StandTime::RECORD,
];

formula! {
    /// Power at the hook.
    pub struct HookPower;
    slug "hook-power";
    equation "P_h = W v";
    law Homogeneous;
    source "definition";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// block speed
        block_speed "v" Speed must NON_NEGATIVE;
    }
    /// hook power
    gives "P_h" Power;
    value |f| f.hook_load * f.block_speed
}

formula! {
    /// Power that the drawworks need to lift a load at a speed.
    pub struct DrawworksPower;
    slug "drawworks-power";
    equation "P = W v/(E η)";
    law Homogeneous;
    source "definition; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// block speed
        block_speed "v" Speed must NON_NEGATIVE;
        /// efficiency of block and tackle
        tackle_efficiency "E" Fraction must between(1e-3, 1.0);
        /// share of input power that reaches the drum: 0.85 to 0.95
        drum_efficiency "η" Fraction must between(1e-3, 1.0) valid between(0.7, 1.0);
    }
    /// drawworks input power
    gives "P" Power;
    value |f| f.hook_load * f.block_speed / (f.tackle_efficiency * f.drum_efficiency)
}

formula! {
    /// Block speed that the power of the drawworks allows.
    pub struct BlockSpeedByPower;
    slug "block-speed-by-power";
    equation "v = P E η/W";
    law Homogeneous;
    source "definition; Bourgoyne et al., Applied Drilling Engineering, SPE 1986, chapter 1";
    given {
        /// drawworks input power
        power "P" Power must NON_NEGATIVE;
        /// efficiency of block and tackle
        tackle_efficiency "E" Fraction must EFFICIENCY;
        /// share of input power that reaches the drum
        drum_efficiency "η" Fraction must EFFICIENCY valid between(0.7, 1.0);
        /// hook load, block included
        hook_load "W" Force must at_least(1.0);
    }
    /// block speed
    gives "v" Speed;
    value |f| f.power * f.tackle_efficiency * f.drum_efficiency / f.hook_load
}

formula! {
    /// Block speed that a speed of the fast line gives.
    pub struct BlockSpeedByLine;
    slug "block-speed-by-line";
    equation "v = v_f/N";
    law Homogeneous;
    source "geometry of block and tackle";
    given {
        /// fast-line speed
        line_speed "v_f" Speed must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
    }
    /// block speed
    gives "v" Speed;
    value |f| f.line_speed / f.lines
}

formula! {
    /// Diameter on which the line lies in a layer of a grooved drum.
    ///
    /// The full drum, block up, is the worst case for pull.
    pub struct DrumDiameter;
    slug "drum-diameter";
    equation "D_n = D + d + 2 d (n - 1) √3/2";
    law Homogeneous;
    source "geometry of nested round line; common practice";
    given {
        /// diameter of the bare drum
        bare_diameter "D" Diameter must NON_NEGATIVE;
        /// diameter of the line
        line_diameter "d" Diameter must NON_NEGATIVE;
        /// layer, the first on the drum
        layer "n" Count must ONE_OR_MORE valid between(1.0, 6.0);
    }
    /// diameter at the middle of the line
    gives "D_n" Diameter;
    value |f| f.bare_diameter + f.line_diameter + f.line_diameter * (f.layer - 1.0) * 3f64.sqrt()
}

formula! {
    /// Pull that a drum torque gives on the fast line.
    pub struct LinePull;
    slug "line-pull";
    equation "F = 2 T/D";
    law Homogeneous;
    source "statics";
    given {
        /// torque on the drum
        torque "T" Torque must NON_NEGATIVE;
        /// diameter at the middle of the line
        drum_diameter "D" Diameter must at_least(1e-3);
    }
    /// fast-line pull
    gives "F" Force;
    value |f| 2.0 * f.torque / f.drum_diameter
}

formula! {
    /// Speed of the fast line that a drum gives.
    pub struct LineSpeed;
    slug "line-speed";
    equation "v_f = ω D/2";
    law Homogeneous;
    source "geometry";
    given {
        /// speed of the drum
        drum_speed "ω" RotarySpeed must NON_NEGATIVE;
        /// diameter at the middle of the line
        drum_diameter "D" Diameter must NON_NEGATIVE;
    }
    /// fast-line speed
    gives "v_f" Speed;
    value |f| 0.5 * f.drum_speed * f.drum_diameter
}

formula! {
    /// Load while the block speeds up, or stops on the way down. A load put on at once doubles.
    pub struct InertiaLoad;
    slug "inertia-load";
    equation "F = W (1 + a/g)";
    law Homogeneous;
    source "Newton's second law";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// acceleration upwards, or braking on the way down: 0.3 to 1 m/s²
        acceleration "a" Acceleration must NON_NEGATIVE valid between(0.0, 3.0);
        /// acceleration of free fall
        gravity "g" Acceleration must at_least(1e-3) valid between(9.7, 9.9) default STANDARD_GRAVITY;
    }
    /// load with inertia
    gives "F" Force;
    value |f| f.hook_load * (1.0 + f.acceleration / f.gravity)
}

formula! {
    /// Load of a stress wave in a moving string that is stopped at once, on top of its weight.
    ///
    /// Whatever the weight and length of the string. In field units 1780 v A (ft/s, in², lbf); up to twice that
    /// after reflection at a fixed end.
    pub struct ShockLoad;
    slug "shock-load";
    equation "F = A v √(E ρ)";
    law Homogeneous;
    source "one-dimensional stress wave; the 1780 v A of casing-running texts (from memory)";
    given {
        /// area of steel
        steel_area "A" Area must NON_NEGATIVE;
        /// speed when stopped
        speed "v" Speed must NON_NEGATIVE;
        /// Young's modulus
        youngs_modulus "E" Stress must NON_NEGATIVE valid between(190e9, 215e9) default 206.8e9;
        /// density of steel
        steel_density "ρ" Density must NON_NEGATIVE valid between(7700.0, 8000.0) default crate::tubular::STEEL_DENSITY;
    }
    /// shock load
    gives "F" Force;
    value |f| f.steel_area * f.speed * (f.youngs_modulus * f.steel_density).sqrt()
}

formula! {
    /// Way in which a moving block stops.
    pub struct StoppingDistance;
    slug "stopping-distance";
    equation "s = v²/(2 a)";
    law Homogeneous;
    source "kinematics";
    given {
        /// block speed
        block_speed "v" Speed must NON_NEGATIVE;
        /// braking
        deceleration "a" Acceleration must at_least(1e-3);
    }
    /// stopping distance
    gives "s" Depth;
    value |f| f.block_speed * f.block_speed / (2.0 * f.deceleration)
}

formula! {
    /// Time to move one stand from rest to rest: speeding up, at speed, slowing down.
    ///
    /// A stand too short to reach the speed takes `2 √(L/a)`.
    pub struct StandTime;
    slug "stand-time";
    equation "t = L/v + v/a";
    law Homogeneous;
    source "kinematics";
    given {
        /// length of the stand
        stand "L" Depth must NON_NEGATIVE;
        /// block speed
        block_speed "v" Speed must at_least(1e-6);
        /// speeding up and slowing down
        acceleration "a" Acceleration must at_least(1e-6) valid between(0.1, 3.0);
    }
    /// time
    gives "t" Time;
    value |f| {
        if f.block_speed * f.block_speed <= f.stand * f.acceleration {
            f.stand / f.block_speed + f.block_speed / f.acceleration
        } else {
            2.0 * (f.stand / f.acceleration).sqrt()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_power_and_speed_invert() {
        let (hook_load, tackle_efficiency, drum_efficiency) = (1.2e6, 0.81, 0.9);
        let power = DrawworksPower { hook_load, block_speed: 0.4, tackle_efficiency, drum_efficiency }.value();
        let back = BlockSpeedByPower { power, tackle_efficiency, drum_efficiency, hook_load }.value();
        assert!((back - 0.4).abs() < 1e-12);
        let at_drum = power * drum_efficiency * tackle_efficiency;
        assert!((HookPower { hook_load, block_speed: 0.4 }.value() / at_drum - 1.0).abs() < 1e-12);
    }

    /// Pull times speed of the line is torque times speed of the drum, on any layer.
    #[test]
    fn law_drum_keeps_power() {
        for layer in [1.0, 2.0, 3.0] {
            let drum_diameter = DrumDiameter { bare_diameter: 0.76, line_diameter: 0.035, layer }.value();
            let pull = LinePull { torque: 8e4, drum_diameter }.value();
            let speed = LineSpeed { drum_speed: 12.0, drum_diameter }.value();
            assert!((pull * speed / (8e4 * 12.0) - 1.0).abs() < 1e-12);
        }
    }

    /// The speed profile covers the stand, and the two branches meet.
    #[test]
    fn law_stand_time_covers_the_stand() {
        let time = |stand: f64, block_speed: f64| StandTime { stand, block_speed, acceleration: 0.5 }.value();
        let at_speed = time(28.0, 1.2) - 2.0 * 1.2 / 0.5;
        assert!((1.2 * at_speed + 1.2 * 1.2 / 0.5 - 28.0).abs() < 1e-12);
        let least = 1.2 * 1.2 / 0.5;
        assert!((time(least, 1.2) - time(least, 1.2 + 1e-9)).abs() < 1e-6);
    }
}
