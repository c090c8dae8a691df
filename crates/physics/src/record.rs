//! The one form of every formula: what it is called, its equation, its symbols with units and ranges,
//! its source, and the pure function behind it. `calc`, the working, the manual and the tests all read
//! these records; nothing about a formula is written twice.

use rigwright_units::Kind;

/// A range of numbers, each end open, closed or absent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lower end; minus infinity when there is none.
    pub low: f64,
    /// Upper end; plus infinity when there is none.
    pub high: f64,
    /// Whether the lower end itself is allowed.
    pub low_included: bool,
    /// Whether the upper end itself is allowed.
    pub high_included: bool,
}

impl Range {
    /// Any finite number.
    pub const ANY: Range = Range { low: f64::NEG_INFINITY, high: f64::INFINITY, low_included: false, high_included: false };
    /// Greater than zero.
    pub const POSITIVE: Range = Range { low: 0.0, ..Range::ANY };
    /// Zero or greater.
    pub const NON_NEGATIVE: Range = Range { low: 0.0, low_included: true, ..Range::ANY };
    /// From zero to one, both included.
    pub const FRACTION: Range = Range::between(0.0, 1.0);
    /// Greater than zero, at most one: an efficiency.
    pub const EFFICIENCY: Range = Range { low: 0.0, low_included: false, high: 1.0, high_included: true };
    /// One or greater.
    pub const ONE_OR_MORE: Range = Range { low: 1.0, low_included: true, ..Range::ANY };

    /// Both ends included.
    pub const fn between(low: f64, high: f64) -> Range {
        Range { low, high, low_included: true, high_included: true }
    }

    /// At least `low`.
    pub const fn at_least(low: f64) -> Range {
        Range { low, low_included: true, ..Range::ANY }
    }

    /// Greater than `low`.
    pub const fn above(low: f64) -> Range {
        Range { low, ..Range::ANY }
    }

    /// At most `high`.
    pub const fn at_most(high: f64) -> Range {
        Range { high, high_included: true, ..Range::ANY }
    }

    /// Whether a finite value lies inside.
    pub fn contains(&self, value: f64) -> bool {
        let above = value > self.low || (self.low_included && value >= self.low);
        let below = value < self.high || (self.high_included && value <= self.high);
        value.is_finite() && above && below
    }
}

/// One symbol of a formula.
#[derive(Clone, Copy, Debug)]
pub struct Symbol {
    /// Name in code and in `calc`: snake case, a word of the glossary.
    pub key: &'static str,
    /// The sign in the equation.
    pub sign: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// Kind of quantity.
    pub kind: Kind,
    /// Outside this range the formula has no meaning and is refused.
    pub must: Range,
    /// Outside this range the formula still computes, but its source does not vouch for it.
    pub valid: Range,
    /// Value used by `calc` when the key is not given. [SI]
    pub default: Option<f64>,
}

/// What the constants of a formula depend on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Law {
    /// True in any consistent system of units.
    Homogeneous,
    /// Its constants hide the units named here.
    Empirical(&'static str),
}

/// Everything there is to know about one formula.
#[derive(Debug)]
pub struct FormulaRecord {
    /// Name in kebab case, a term of the trade, stable for ever.
    pub slug: &'static str,
    /// One sentence: what it gives.
    pub title: &'static str,
    /// The equation in plain text, with the signs of the symbols.
    pub equation: &'static str,
    /// The inputs, in order.
    pub symbols: &'static [Symbol],
    /// The result.
    pub result: Symbol,
    /// Whether its constants hide units.
    pub law: Law,
    /// Source with edition and place, or "common practice", or "from memory".
    pub source: &'static str,
    /// Path of the module that declares it: `rigwright_physics::circulating::column`.
    pub module: &'static str,
    /// The value from the inputs in the order of `symbols`. [SI]
    pub from_keys: fn(&[f64]) -> f64,
}

impl FormulaRecord {
    /// The part of this crate that it belongs to: `circulating`, `tubular`.
    pub fn system(&self) -> &'static str {
        self.module.split("::").nth(1).unwrap_or(self.module)
    }

    /// The symbol with this key.
    pub fn symbol(&self, key: &str) -> Option<&Symbol> {
        self.symbols.iter().find(|symbol| symbol.key == key)
    }

    /// Where the given inputs leave the range that the formula must have.
    pub fn outside_must(&self, inputs: &[f64]) -> Vec<&'static Symbol> {
        self.symbols
            .iter()
            .zip(inputs)
            .filter(|(symbol, value)| !symbol.must.contains(**value))
            .map(|(symbol, _)| symbol)
            .collect()
    }

    /// Where the given inputs leave the range that the source vouches for.
    pub fn outside_valid(&self, inputs: &[f64]) -> Vec<&'static Symbol> {
        self.symbols
            .iter()
            .zip(inputs)
            .filter(|(symbol, value)| !symbol.valid.contains(**value))
            .map(|(symbol, _)| symbol)
            .collect()
    }
}

/// A formula with its numbers put in.
pub trait Formula: Copy {
    /// What it is.
    const RECORD: &'static FormulaRecord;
    /// The inputs in the order of the record's symbols. [SI]
    fn inputs(&self) -> impl AsRef<[f64]>;
    /// The result; pure, and finite inside the must-ranges. [SI]
    fn value(&self) -> f64;
}

/// Declares one formula: the struct of named inputs, its record and its value, in one place so that the
/// order of the inputs cannot drift from the order of the symbols.
///
/// ```
/// use rigwright_physics::{formula, Formula};
/// formula! {
///     /// Weight of a mass at rest.
///     pub struct Weight;
///     slug "weight";
///     equation "W = m g";
///     law Homogeneous;
///     source "Newton's second law";
///     given {
///         /// mass of the body
///         mass "m" Mass must NON_NEGATIVE;
///         /// acceleration of free fall
///         gravity "g" Acceleration must POSITIVE valid between(9.7, 9.9) default 9.80665;
///     }
///     /// weight of the body
///     gives "W" Force;
///     value |f| f.mass * f.gravity
/// }
/// assert_eq!(Weight { mass: 2.0, gravity: 9.80665 }.value(), 19.6133);
/// assert_eq!(Weight::RECORD.slug, "weight");
/// ```
#[macro_export]
macro_rules! formula {
    (
        #[doc = $title:literal] $(#[doc = $more:literal])*
        pub struct $name:ident;
        slug $slug:literal;
        equation $equation:literal;
        law $law:ident $(($units:literal))?;
        source $source:literal;
        given { $(
            #[doc = $meaning:literal]
            $key:ident $sign:literal $kind:ident must $must:ident $(($($must_arg:expr),*))?
                $(valid $valid:ident $(($($valid_arg:expr),*))?)? $(default $default:expr)?;
        )+ }
        #[doc = $result_meaning:literal]
        gives $result_sign:literal $result_kind:ident;
        value |$this:ident| $body:expr
    ) => {
        #[doc = $title] $(#[doc = $more])*
        ///
        /// ```text
        #[doc = $equation]
        /// ```
        ///
        #[doc = concat!("*Source*: ", $source)]
        #[derive(Clone, Copy, Debug)]
        pub struct $name { $( #[doc = $meaning] pub $key: f64, )+ }

        impl $crate::Formula for $name {
            const RECORD: &'static $crate::FormulaRecord = &$crate::FormulaRecord {
                slug: $slug,
                title: $title,
                equation: $equation,
                symbols: &[ $( $crate::Symbol {
                    key: stringify!($key),
                    sign: $sign,
                    meaning: $meaning,
                    kind: $crate::Kind::$kind,
                    must: $crate::Range::$must $(($($must_arg),*))?,
                    valid: $crate::formula!(@valid $($valid $(($($valid_arg),*))?)?),
                    default: $crate::formula!(@default $($default)?),
                }, )+ ],
                result: $crate::Symbol {
                    key: "result",
                    sign: $result_sign,
                    meaning: $result_meaning,
                    kind: $crate::Kind::$result_kind,
                    must: $crate::Range::ANY,
                    valid: $crate::Range::ANY,
                    default: None,
                },
                law: $crate::Law::$law $(($units))?,
                source: $source,
                module: module_path!(),
                from_keys: |values| {
                    let [$($key),+] = values else { return f64::NAN };
                    $crate::Formula::value(&$name { $($key: *$key),+ })
                },
            };

            fn inputs(&self) -> impl AsRef<[f64]> { [$(self.$key),+] }

            fn value(&self) -> f64 { let $this = self; $body }
        }
    };
    (@valid) => { $crate::Range::ANY };
    (@valid $valid:ident $(($($arg:expr),*))?) => { $crate::Range::$valid $(($($arg),*))? };
    (@default) => { None };
    (@default $default:expr) => { Some($default) };
}
