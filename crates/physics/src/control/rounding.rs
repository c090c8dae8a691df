//! Rounding to the digit that is read on the rig floor, to the safe side: kill weights up, leak-off weights and
//! allowed pressures down. The unrounded value stands beside it, always.

/// The next multiple of `step` above; a value that is a multiple but for the noise of binary numbers stays.
pub fn round_up(value: f64, step: f64) -> f64 {
    (value / step - NOISE).ceil() * step
}

/// The next multiple of `step` below; a value that is a multiple but for the noise of binary numbers stays.
pub fn round_down(value: f64, step: f64) -> f64 {
    (value / step + NOISE).floor() * step
}

/// Part of a step that is taken for noise.
const NOISE: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_rounding_goes_to_the_safe_side_and_stays_on_a_multiple() {
        assert!((round_up(10.523, 0.1) - 10.6).abs() < 1e-12);
        assert!((round_down(14.606, 0.1) - 14.6).abs() < 1e-12);
        for count in 0..2000 {
            let multiple = f64::from(count) * 0.1;
            assert!((round_up(multiple, 0.1) - multiple).abs() < 1e-9, "{multiple}");
            assert!((round_down(multiple, 0.1) - multiple).abs() < 1e-9, "{multiple}");
        }
        assert!((round_up(-0.25, 0.1) + 0.2).abs() < 1e-12);
    }
}
