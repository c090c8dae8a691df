//! Kinds of quantity: what a number is, its SI unit and its dimension.
//!
//! Two kinds may share a dimension when people write them in different units
//! (a depth in feet, a diameter in inches). A kind says nothing about a value.

/// Exponents of mass, length, time and temperature. Angles count as numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dimension {
    /// Exponent of the kilogram.
    pub mass: i8,
    /// Exponent of the metre.
    pub length: i8,
    /// Exponent of the second.
    pub time: i8,
    /// Exponent of the kelvin.
    pub temperature: i8,
}

const fn dim(mass: i8, length: i8, time: i8, temperature: i8) -> Dimension {
    Dimension { mass, length, time, temperature }
}

macro_rules! kinds {
    ($( $(#[$doc:meta])* $name:ident $text:literal $si:literal $dim:expr; )*) => {
        /// What a number is. The doc of each kind ends with the SI unit of its bare value.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Kind { $( $(#[$doc])* $name, )* }

        impl Kind {
            /// Every kind, in the order of the table.
            pub const ALL: &'static [Kind] = &[ $( Kind::$name, )* ];

            /// The kind in plain words, lower case: "mud weight or density".
            pub const fn name(self) -> &'static str { match self { $( Kind::$name => $text, )* } }

            /// The SI unit that a bare value of this kind has.
            pub const fn si_unit(self) -> &'static str { match self { $( Kind::$name => $si, )* } }

            /// The dimension. [`Kind::Consistency`] carries its flow index in the time exponent and
            /// is listed as if the index were 1.
            pub const fn dimension(self) -> Dimension { match self { $( Kind::$name => $dim, )* } }
        }
    };
}

kinds! {
    /// Measured or vertical depth, length of pipe. [m]
    Depth "depth or length" "m" dim(0, 1, 0, 0);
    /// Diameter, wall, stroke, small length. [m]
    Diameter "diameter" "m" dim(0, 1, 0, 0);
    /// Roughness and other very small lengths. [m]
    Roughness "roughness" "m" dim(0, 1, 0, 0);
    /// Cross-section. [m²]
    Area "area" "m²" dim(0, 2, 0, 0);
    /// Pit, hole or influx volume. [m³]
    Volume "volume" "m³" dim(0, 3, 0, 0);
    /// Control fluid, fuel: small volume. [m³]
    FluidVolume "fluid volume" "m³" dim(0, 3, 0, 0);
    /// What passes a filter press. [m³]
    Filtrate "filtrate" "m³" dim(0, 3, 0, 0);
    /// Pump output per stroke. [m³]
    VolumePerStroke "volume per stroke" "m³" dim(0, 3, 0, 0);
    /// Capacity or displacement of a length. [m³/m]
    VolumePerLength "capacity (volume per length)" "m³/m" dim(0, 2, 0, 0);
    /// Section modulus of a tube. [m³]
    SectionModulus "section modulus" "m³" dim(0, 3, 0, 0);
    /// Second moment of area. [m⁴]
    SecondMoment "second moment of area" "m⁴" dim(0, 4, 0, 0);
    /// Mud weight, density, equivalent mud weight. [kg/m³]
    Density "mud weight or density" "kg/m³" dim(1, -3, 0, 0);
    /// Pressure, gauge unless said otherwise. [Pa]
    Pressure "pressure" "Pa" dim(1, -1, -2, 0);
    /// Absolute pressure. [Pa]
    AbsolutePressure "absolute pressure" "Pa" dim(1, -1, -2, 0);
    /// Pressure per vertical or measured length. [Pa/m]
    PressureGradient "pressure gradient" "Pa/m" dim(1, -2, -2, 0);
    /// Stress in steel. [Pa]
    Stress "stress or strength" "Pa" dim(1, -1, -2, 0);
    /// Stress in a fluid: yield point, gel strength, wall stress. [Pa]
    ShearStress "shear stress" "Pa" dim(1, -1, -2, 0);
    /// Shear rate. [1/s]
    ShearRate "shear rate" "1/s" dim(0, 0, -1, 0);
    /// Viscosity. [Pa·s]
    Viscosity "viscosity" "Pa·s" dim(1, -1, -1, 0);
    /// Consistency index of a power law; the time exponent is the flow index less two. [Pa·sⁿ]
    Consistency "consistency index" "Pa·sⁿ" dim(1, -1, -1, 0);
    /// Hook load, tension, weight on bit. [N]
    Force "force or load" "N" dim(1, 1, -2, 0);
    /// Side force per length. [N/m]
    ForcePerLength "force per length" "N/m" dim(1, 0, -2, 0);
    /// Weight per length of pipe, as a mass. [kg/m]
    LinearMass "weight per length" "kg/m" dim(1, -1, 0, 0);
    /// Mass. [kg]
    Mass "mass" "kg" dim(1, 0, 0, 0);
    /// Torque. [N·m]
    Torque "torque" "N·m" dim(1, 2, -2, 0);
    /// Power. [W]
    Power "power" "W" dim(1, 2, -3, 0);
    /// Power per area of the bit. [W/m²]
    PowerPerArea "power per area" "W/m²" dim(1, 0, -3, 0);
    /// Work of the drilling line. [J]
    LineWork "line work" "J" dim(1, 2, -2, 0);
    /// Work per length of line cut. [N]
    WorkPerLength "line work per length" "J/m" dim(1, 1, -2, 0);
    /// Energy. [J]
    Energy "energy" "J" dim(1, 2, -2, 0);
    /// Flow rate. [m³/s]
    FlowRate "flow rate" "m³/s" dim(0, 3, -1, 0);
    /// Fuel used per time. [m³/s]
    FuelRate "fuel rate" "m³/s" dim(0, 3, -1, 0);
    /// Gas per time, at 60 °F and one atmosphere. [m³/s]
    GasRate "gas rate at standard conditions" "m³/s" dim(0, 3, -1, 0);
    /// Annular, slip or jet speed. [m/s]
    Speed "speed" "m/s" dim(0, 1, -1, 0);
    /// Speed of a jet. [m/s]
    JetSpeed "jet speed" "m/s" dim(0, 1, -1, 0);
    /// Rate of penetration. [m/s]
    DrillingRate "rate of penetration" "m/s" dim(0, 1, -1, 0);
    /// Acceleration. [m/s²]
    Acceleration "acceleration" "m/s²" dim(0, 1, -2, 0);
    /// Rotary speed. [rad/s]
    RotarySpeed "rotary speed" "rad/s" dim(0, 0, -1, 0);
    /// Pump speed. [1/s]
    StrokeRate "pump speed" "1/s" dim(0, 0, -1, 0);
    /// Angle. [rad]
    Angle "angle" "rad" dim(0, 0, 0, 0);
    /// Dogleg severity, curvature. [rad/m]
    Curvature "curvature or dogleg severity" "rad/m" dim(0, -1, 0, 0);
    /// Time, duration. [s]
    Time "time" "s" dim(0, 0, 1, 0);
    /// Temperature. [K]
    Temperature "temperature" "K" dim(0, 0, 0, 1);
    /// Difference of two temperatures: a scale's zero does not count. [K]
    TemperatureChange "temperature difference" "K" dim(0, 0, 0, 1);
    /// Temperature per vertical length. [K/m]
    TemperatureGradient "temperature gradient" "K/m" dim(0, -1, 0, 1);
    /// Strain by warming. [1/K]
    Expansion "thermal expansion" "1/K" dim(0, 0, 0, -1);
    /// Compressibility. [1/Pa]
    Compressibility "compressibility" "1/Pa" dim(-1, 1, 2, 0);
    /// Molar mass, per mole; the mole counts as a number. [kg/mol]
    MolarMass "molar mass" "kg/mol" dim(1, 0, 0, 0);
    /// Specific heat. [J/(kg·K)]
    SpecificHeat "specific heat" "J/(kg·K)" dim(0, 2, -2, -1);
    /// Thermal conductivity. [W/(m·K)]
    Conductivity "thermal conductivity" "W/(m·K)" dim(1, 1, -3, -1);
    /// Heat transfer coefficient. [W/(m²·K)]
    HeatTransfer "heat transfer coefficient" "W/(m²·K)" dim(1, 0, -3, -1);
    /// Heat that burns out of fuel, per mass. [J/kg]
    HeatingValue "heating value" "J/kg" dim(0, 2, -2, 0);
    /// Apparent electric power. [VA]
    ApparentPower "apparent power" "VA" dim(1, 2, -3, 0);
    /// Permeability of rock. [m²]
    Permeability "permeability" "m²" dim(0, 2, 0, 0);
    /// Mass flow. [kg/s]
    MassFlow "mass flow" "kg/s" dim(1, 0, -1, 0);
    /// Money, in the currency that the user writes prices in. [-]
    Cost "cost" "-" dim(0, 0, 0, 0);
    /// Price of a mass. [1/kg]
    PricePerMass "price of a mass" "per kg" dim(-1, 0, 0, 0);
    /// Price of a volume. [1/m³]
    PricePerVolume "price of a volume" "per m³" dim(0, -3, 0, 0);
    /// Share of a whole, efficiency. [-]
    Fraction "fraction" "-" dim(0, 0, 0, 0);
    /// Plain ratio, factor, exponent, design factor. [-]
    Ratio "number" "-" dim(0, 0, 0, 0);
    /// Whole number: lines, sets, strokes, joints. [-]
    Count "count" "-" dim(0, 0, 0, 0);
    /// Viscometer dial reading. [degree of the dial]
    Dial "dial reading" "°" dim(0, 0, 0, 0);
}
