//! What is accepted, what is refused, and what the refusal says.

use rigwright_units::{Kind, Spread, TABLE, Unit, UnitError, example, find_unit, last_digit, parse, parse_stated, units_of};

fn assert_near(text: &str, kind: Kind, expected: f64) {
    let value = parse(text, kind).unwrap_or_else(|error| panic!("{text}: {error}"));
    assert!((value - expected).abs() <= 1e-12 * expected.abs(), "{text} is {value}, not {expected}");
}

#[test]
fn law_numbers_are_read_as_the_trade_writes_them() {
    for (text, inches) in [
        ("12 in", 12.0),
        ("12.25 in", 12.25),
        ("12 1/4 in", 12.25),
        ("12-1/4 in", 12.25),
        ("12¼ in", 12.25),
        ("12 ¼\"", 12.25),
        ("13 3/8 in", 13.375),
        ("13 3/8in.", 13.375),
        ("  9 5/8  inches ", 9.625),
        ("1/2 in", 0.5),
        ("16/32 in", 0.5),
        ("16 32nds", 0.5),
        (".5 in", 0.5),
        ("5. in", 5.0),
        ("1 ft", 12.0),
        ("-1 1/2 in", -1.5),
        ("−1/2 in", -0.5),
        ("+2 in", 2.0),
        ("1,000 in", 1000.0),
        ("12,345,678.5 in", 12_345_678.5),
        ("1e2 in", 100.0),
        ("1.5E-2in", 0.015),
    ] {
        assert_near(text, Kind::Diameter, inches * 0.0254);
    }
    assert_near("300 eq cP", Kind::Consistency, 0.3);
    assert_near("300eq. cP", Kind::Consistency, 0.3);
    assert_near("5 1/s", Kind::ShearRate, 5.0);
    assert_near("3e-6 1/Pa", Kind::Compressibility, 3e-6);
    assert_near("3e-6/psi", Kind::Compressibility, 3e-6 / 6894.757293168361);
    assert_near("85%", Kind::Fraction, 0.85);
    assert_near("0.85", Kind::Fraction, 0.85);
    assert_near("8", Kind::Count, 8.0);
    assert_near("48°", Kind::Dial, 48.0);
}

#[test]
fn law_every_spelling_of_every_unit_is_read() {
    for unit in TABLE {
        for kind in unit.kinds {
            for text in unit.spellings.iter().chain([&unit.symbol]) {
                assert_eq!(find_unit(text, *kind).or(bare(text, unit)), Ok(unit), "`{text}` of {}", kind.name());
                assert_eq!(parse(&format!("7 {text}"), *kind), Ok(unit.to_si(7.0)), "`{text}` of {}", kind.name());
                // `7.532nd` would be one number.
                if !text.starts_with(|c: char| c.is_ascii_digit()) {
                    assert_eq!(parse(&format!("7.5{text}"), *kind), Ok(unit.to_si(7.5)), "`{text}` of {}", kind.name());
                }
            }
        }
    }
}

/// The empty symbol names a unit only behind a number.
fn bare(text: &str, unit: &'static Unit) -> Result<&'static Unit, UnitError> {
    if text.is_empty() { Ok(unit) } else { Err(UnitError::Empty { kind: unit.kinds[0] }) }
}

#[test]
fn law_variants_of_a_spelling_are_one_unit() {
    for (kind, spellings) in [
        (Kind::Volume, &["m3", "m³", "m^3"][..]),
        (Kind::Area, &["in2", "in²", "in^2", "sq in"]),
        (Kind::Density, &["ppg", "lb/gal", "lbm/gal"]),
        (Kind::Torque, &["kN.m", "kN·m", "kN m", "kN-m", "kNm"]),
        (Kind::Torque, &["ft-lbf", "ft.lbf", "ft lbf", "ft·lbf", "ft-lb"]),
        (Kind::LinearMass, &["lb/ft", "lbm/ft", "ppf"]),
        (Kind::Force, &["klbf", "klb", "kip", "kips"]),
        (Kind::FlowRate, &["L/min", "lpm", "l/min"]),
        (Kind::ShearStress, &["lb/100 ft2", "lb/100ft2", "lbf/100 ft²", "lbf/100ft2"]),
        (Kind::Curvature, &["deg/100 ft", "°/100ft", "deg/100ft"]),
        (Kind::Temperature, &["degF", "°F", "deg F"]),
        (Kind::Viscosity, &["mPa.s", "mPa·s", "mPas"]),
        (Kind::Consistency, &["Pa.s^n", "Pa·sⁿ"]),
        (Kind::LineWork, &["ton-mile", "ton-mi", "ton-miles", "ton mile"]),
        (Kind::AbsolutePressure, &["psi abs", "psia"]),
        (Kind::DrillingRate, &["ft/h", "ft/hr"]),
        (Kind::ShearRate, &["1/s", "s⁻¹", "s^-1"]),
    ] {
        let [first, others @ ..] = spellings else { panic!("no spellings") };
        for other in others {
            assert_eq!(find_unit(other, kind), find_unit(first, kind), "{other}");
        }
    }
}

#[test]
fn law_a_tonne_is_a_force_on_the_hook_and_a_mass_in_the_store() {
    assert_near("110 t", Kind::Force, 110.0 * 9806.65);
    assert_near("18 t", Kind::Mass, 18_000.0);
}

#[test]
fn law_the_last_printed_digit_is_one_step() {
    for (text, kind, step) in [
        ("8424 psi", Kind::Stress, 6894.757293168361),
        ("1.20 sg", Kind::Density, 10.0),
        ("3,636.36 kPa", Kind::Pressure, 10.0),
        ("1.5e5 Pa", Kind::Pressure, 1e4),
        ("150 degC", Kind::Temperature, 1.0),
        ("12 1/4 in", Kind::Diameter, 0.0),
    ] {
        assert!((last_digit(text, kind).unwrap() - step).abs() <= 1e-12 * step, "{text}");
    }
}

#[test]
fn rejects_what_is_no_number() {
    for text in [
        "ppg",
        "ten ppg",
        "--5 ppg",
        "+-5 ppg",
        "7,5 ppg",
        "7,00 ppg",
        "0,125 ppg",
        "1234,567 ppg",
        ",500 ppg",
        "1 2 ppg",
        "1.2.3 ppg",
        "12 5/4 ppg",
        "12 1/0 ppg",
        "1/2/3 ppg",
        "nan ppg",
        "inf ppg",
        "8..9 ppg",
        "9 +/- 1 ppg",
        ".",
        "-",
        "e5 ppg",
    ] {
        let error = parse(text, Kind::Density).unwrap_err();
        assert!(matches!(&error, UnitError::NotANumber { .. }), "{text}: {error:?}");
        assert!(error.help().contains("`10 ppg` or `1.2 sg`"));
    }
    for text in ["", "   "] {
        assert_eq!(parse(text, Kind::Density), Err(UnitError::Empty { kind: Kind::Density }));
    }
    for text in ["1e999 ppg", "1e308 sg", "9e99999999999999999999 sg"] {
        assert!(matches!(parse(text, Kind::Density), Err(UnitError::TooLarge { .. })), "{text}");
    }
    assert!(matches!(parse("-500 degF", Kind::Temperature), Err(UnitError::BelowAbsoluteZero { .. })));
}

#[test]
fn rejects_wrong_missing_and_unclear_units() {
    for (text, kind, message, help) in [
        ("10", Kind::Density, "`10` has no unit; mud weight or density needs one", "write e.g. `10 ppg` or `1.2 sg`"),
        (
            "10 pgp",
            Kind::Density,
            "`pgp` is not a unit of mud weight or density",
            "did you mean `ppg`? write e.g. `10 ppg` or `1.2 sg`",
        ),
        (
            "10 PPG",
            Kind::Density,
            "`PPG` is not a unit of mud weight or density",
            "did you mean `ppg`? write e.g. `10 ppg` or `1.2 sg`",
        ),
        ("10 furlongs", Kind::Depth, "`furlongs` is not a unit of depth or length", "write e.g. `10,000 ft` or `3050 m`"),
        ("10 psi", Kind::Density, "`psi` measures pressure, not mud weight or density", "write e.g. `10 ppg` or `1.2 sg`"),
        (
            "19.5 lbf/ft",
            Kind::LinearMass,
            "`lbf/ft` measures force per length, not weight per length",
            "write e.g. `19.5 lb/ft` or `29 kg/m`",
        ),
        (
            "14.7 psi",
            Kind::AbsolutePressure,
            "`psi` measures pressure, not absolute pressure",
            "write e.g. `3000 psi abs` or `200 bar abs`",
        ),
        ("14.7 psia", Kind::Pressure, "`psia` measures absolute pressure, not pressure", "write e.g. `3000 psi` or `200 bar`"),
        (
            "300 ton",
            Kind::Force,
            "`ton` is not clear",
            "a ton is 2,000 lb on a US line and 1,000 kg elsewhere; write `short ton` or `t`",
        ),
        ("150 F", Kind::Temperature, "`F` is not clear", "write `degF`, `degC` or `degR`"),
        (
            "5 mPa",
            Kind::Stress,
            "`mPa` is not a unit of stress or strength",
            "did you mean `MPa`? write e.g. `75,000 psi` or `517 MPa`",
        ),
        ("1.6 m", Kind::Ratio, "`m` measures depth or length, not number", "write e.g. `1.6`"),
        (
            "x",
            Kind::Count,
            "`x` is not a number",
            "write e.g. `8`; decimals take a point, a comma only groups thousands (`7,000`)",
        ),
    ] {
        let error = parse(text, kind).unwrap_err();
        assert_eq!((error.to_string().as_str(), error.help().as_str()), (message, help));
    }
}

/// Every example in a help text is itself readable.
#[test]
fn law_examples_are_read() {
    for kind in Kind::ALL {
        let quoted: Vec<&str> = example(*kind).split('`').skip(1).step_by(2).collect();
        assert!(!quoted.is_empty());
        for text in quoted {
            assert!(parse(text, *kind).is_ok(), "{text}");
        }
    }
}

#[test]
fn law_plus_minus_is_two_standard_deviations() {
    let ppg = parse("1 ppg", Kind::Density).unwrap();
    for text in ["9.2 +/- 0.3 ppg", "9.2±0.3 ppg", "9.2 ppg +/- 0.3 ppg", "9.2 ppg +/- 0.3"] {
        let stated = parse_stated(text, Kind::Density).unwrap();
        assert!((stated.value - 9.2 * ppg).abs() < 1e-9, "{text}");
        let Spread::Normal { standard_deviation } = stated.spread else { panic!("{text}") };
        assert!((standard_deviation - 0.15 * ppg).abs() < 1e-9, "{text}");
    }
    let warm = parse_stated("150 +/- 9 degF", Kind::Temperature).unwrap();
    assert!((warm.value - (150.0 + 459.67) / 1.8).abs() < 1e-9);
    assert!(matches!(warm.spread, Spread::Normal { standard_deviation } if (standard_deviation - 2.5).abs() < 1e-12));
    assert_eq!(parse_stated("9.2 +/- 0 ppg", Kind::Density).unwrap().spread, Spread::Exact);
    assert_eq!(parse_stated("9.2 ppg", Kind::Density).unwrap().spread, Spread::Exact);
}

#[test]
fn law_two_ends_are_uniform_about_their_middle() {
    let ppg = parse("1 ppg", Kind::Density).unwrap();
    for text in ["8.8..9.6 ppg", "8.8 .. 9.6 ppg", "8.8 ppg..9.6 ppg"] {
        let stated = parse_stated(text, Kind::Density).unwrap();
        assert!((stated.value - 9.2 * ppg).abs() < 1e-9, "{text}");
        let Spread::Uniform { low, high } = stated.spread else { panic!("{text}") };
        assert!((low - 8.8 * ppg).abs() < 1e-9 && (high - 9.6 * ppg).abs() < 1e-9, "{text}");
    }
    let cold = parse_stated("-5..5 degC", Kind::Temperature).unwrap();
    assert!((cold.value - 273.15).abs() < 1e-9);
    assert_eq!(parse_stated("9 ppg..9 ppg", Kind::Density).unwrap().spread, Spread::Exact);
    assert!((parse_stated("10..14 %", Kind::Fraction).unwrap().value - 0.12).abs() < 1e-15);
}

#[test]
fn rejects_spreads_without_sense() {
    let refusal = |text| parse_stated(text, Kind::Density).unwrap_err();
    assert!(matches!(refusal("9.6..8.8 ppg"), UnitError::ReversedEnds { .. }));
    assert!(matches!(refusal("9.2 +/- -0.3 ppg"), UnitError::NegativeSpread { .. }));
    assert!(matches!(refusal("9.2 +/- 0.3"), UnitError::NoUnit { .. }));
    assert!(matches!(refusal("8.8..9.6"), UnitError::NoUnit { .. }));
    assert!(matches!(refusal("8.8.. ppg"), UnitError::NotANumber { .. }));
    assert!(matches!(refusal("..9.6 ppg"), UnitError::Empty { .. }));
    assert!(matches!(refusal("9.2 +/- psi"), UnitError::NotANumber { .. }));
    assert!(matches!(refusal("9.2 +/- 0.3 psi"), UnitError::WrongKind { .. }));
}

/// Any text is answered, none is a crash: pieces that mean something, put together at random.
#[test]
fn law_no_text_is_a_crash() {
    const PIECES: [&str; 24] = [
        "1", "12", "0", ",", ".", "..", "/", "-", "−", "+/-", "±", " ", "e", "E9", "¼", "1/4", "in", "ppg", "°", "abs", "32nd",
        "²", "é", "\"",
    ];
    let mut state = 20_260_101_u64;
    let mut draw = |below: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).unwrap() % below
    };
    for _ in 0..20_000 {
        let text: String = (0..draw(8)).map(|_| PIECES[draw(PIECES.len())]).collect();
        let kind = Kind::ALL[draw(Kind::ALL.len())];
        for read in [parse(&text, kind), parse_stated(&text, kind).map(|stated| stated.value), last_digit(&text, kind)] {
            match read {
                Ok(value) => assert!(value.is_finite(), "{text}"),
                Err(error) => assert!(!error.to_string().is_empty() && !error.help().is_empty(), "{text}"),
            }
        }
    }
}

/// Every kind can be written in at least one unit.
#[test]
fn law_every_kind_has_a_unit() {
    for kind in Kind::ALL {
        assert!(units_of(*kind).next().is_some(), "{}", kind.name());
    }
}
