//! The salts of brines and the coefficients of their density models.

/// A salt dissolved in water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Salt {
    /// NaCl.
    SodiumChloride,
    /// KCl.
    PotassiumChloride,
    /// CaCl₂.
    CalciumChloride,
    /// MgCl₂.
    MagnesiumChloride,
    /// NaBr.
    SodiumBromide,
    /// KBr.
    PotassiumBromide,
    /// HCOONa.
    SodiumFormate,
    /// HCOOK.
    PotassiumFormate,
}

/// Coefficients of a chloride brine under pressure: Al Ghafri, Maitland & Trusler, J. Chem. Eng. Data 57 (2012) 1288,
/// tables 9 and 10.
#[derive(Debug)]
pub(super) struct Chloride {
    /// Mass of a mole of the salt. [kg/mol]
    pub molar_mass: f64,
    /// Density at the vapour pressure, by powers of molality (1, 3/2, 2) and of T/Tc (0, 1, 3/2, 2, 5/2). [kg/m³]
    pub alpha: [[f64; 5]; 3],
    /// Stiffness that a molality of one adds, by powers of T/Tc. [MPa]
    pub beta: [f64; 4],
    /// Change of the softness with molality and its power 3/2. [-]
    pub gamma: [f64; 2],
}

/// Stiffness of pure water, by powers of T/Tc. [MPa]
pub(super) const WATER_STIFFNESS: [f64; 4] = [-1622.4, 9383.8, -14893.8, 7309.10];
/// Softness of pure water. [-]
pub(super) const WATER_SOFTNESS: f64 = 0.11725;

pub(super) const SODIUM_CHLORIDE: Chloride = Chloride {
    molar_mass: 0.058_442_8,
    alpha: [
        [2863.158, -46844.356, 120760.118, -116867.722, 40285.426],
        [-2000.028, 34013.518, -88557.123, 86351.784, -29910.216],
        [413.046, -7125.857, 18640.780, -18244.074, 6335.275],
    ],
    beta: [241.57, -980.97, 1482.31, -750.98],
    gamma: [-0.00134, 0.00056],
};

pub(super) const POTASSIUM_CHLORIDE: Chloride = Chloride {
    molar_mass: 0.074_551_3,
    alpha: [
        [2332.802, -39637.418, 104801.288, -104266.828, 37030.556],
        [-1287.572, 23543.994, -63846.097, 65023.561, -23586.370],
        [206.032, -4003.757, 11128.162, -11595.475, 4295.498],
    ],
    beta: [211.49, -888.16, 1400.09, -732.79],
    gamma: [-0.00170, 0.00083],
};

pub(super) const CALCIUM_CHLORIDE: Chloride = Chloride {
    molar_mass: 0.110_984,
    alpha: [
        [2546.760, -39884.946, 102056.957, -98403.334, 33976.048],
        [-1362.157, 22785.572, -59216.108, 57894.824, -20222.898],
        [217.778, -3770.645, 9908.135, -9793.484, 3455.587],
    ],
    beta: [307.24, -1259.10, 2034.03, -1084.94],
    gamma: [-0.00493, 0.00231],
};

pub(super) const MAGNESIUM_CHLORIDE: Chloride = Chloride {
    molar_mass: 0.095_211,
    alpha: [
        [2385.823, -38428.112, 99526.269, -97041.399, 33841.139],
        [-1254.938, 21606.295, -56988.274, 56465.943, -19934.064],
        [192.534, -3480.374, 9345.908, -9408.904, 3364.018],
    ],
    beta: [358.00, -1597.10, 2609.47, -1383.91],
    gamma: [-0.00789, 0.00142],
};

/// Coefficients of a brine at one atmosphere: Laliberté, J. Chem. Eng. Data 54 (2009) 1725, as the Python library thermo
/// 0.6.1 carries them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laliberte {
    /// c₀ to c₄.
    pub coefficients: [f64; 5],
    /// Largest share of salt that they are good for. [-]
    pub largest_fraction: f64,
    /// Coldest and hottest brine that they are good for. [K]
    pub temperatures: [f64; 2],
}

impl Salt {
    /// Every salt.
    pub const ALL: [Salt; 8] = [
        Salt::SodiumChloride,
        Salt::PotassiumChloride,
        Salt::CalciumChloride,
        Salt::MagnesiumChloride,
        Salt::SodiumBromide,
        Salt::PotassiumBromide,
        Salt::SodiumFormate,
        Salt::PotassiumFormate,
    ];

    /// Its name in plain words.
    pub const fn name(self) -> &'static str {
        match self {
            Salt::SodiumChloride => "sodium chloride",
            Salt::PotassiumChloride => "potassium chloride",
            Salt::CalciumChloride => "calcium chloride",
            Salt::MagnesiumChloride => "magnesium chloride",
            Salt::SodiumBromide => "sodium bromide",
            Salt::PotassiumBromide => "potassium bromide",
            Salt::SodiumFormate => "sodium formate",
            Salt::PotassiumFormate => "potassium formate",
        }
    }

    /// Share of the mass that a brine may hold: about what dissolves at 25 °C, and what its model is good for. [-]
    pub const fn most(self) -> f64 {
        match self {
            Salt::SodiumChloride => 0.265,
            Salt::PotassiumChloride => 0.264,
            Salt::CalciumChloride => 0.44,
            Salt::MagnesiumChloride => 0.35,
            Salt::SodiumBromide => 0.48,
            Salt::PotassiumBromide => 0.40,
            Salt::SodiumFormate => 0.405,
            Salt::PotassiumFormate => 0.677,
        }
    }

    /// Coefficients at one atmosphere; none for magnesium chloride, whose model under pressure serves there too.
    pub const fn laliberte(self) -> Option<Laliberte> {
        let (coefficients, largest_fraction, [coldest, hottest]) = match self {
            Salt::SodiumChloride => {
                ([-0.003_241_122_237, 0.063_635_433_59, 1.013_713_995, 0.014_595_101_52, 3_317.348_544], 0.265, [273.15, 413.15])
            }
            Salt::PotassiumChloride => {
                ([-0.855_928_946, 6.040_735_713, 2.817_874_162, 0.025_392_464_59, 2_681.617_235], 0.264, [278.15, 398.15])
            }
            Salt::CalciumChloride => {
                ([-9.728_937_473, 14.700_535_3, 4.190_333_415, 0.039_740_362_43, 2_708.127_789], 0.513, [288.15, 399.85])
            }
            Salt::MagnesiumChloride => return None,
            Salt::SodiumBromide => {
                ([23.765_937_88, 210.721_942_8, 2.010_234_721, 0.016_394_123_55, 1_941.829_08], 0.548, [273.15, 368.15])
            }
            Salt::PotassiumBromide => {
                ([-13.151_388_03, 190.745_408_5, 5.397_386_047, 0.040_266_246_14, 2_153.225_49], 0.503, [273.15, 368.15])
            }
            Salt::SodiumFormate => {
                ([757.620_542, 1_317.081_444, 0.756_915_394, 0.003_164_687_421, 687.344_536_4], 0.405, [298.15, 318.15])
            }
            Salt::PotassiumFormate => {
                ([436.744_437_7, 2_573.315_077, 1.995_558_184, 0.006_177_046_558, 781.316_230_3], 0.677, [288.15, 328.15])
            }
        };
        Some(Laliberte { coefficients, largest_fraction, temperatures: [coldest, hottest] })
    }
}
