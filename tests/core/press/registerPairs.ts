/**
 * Point pairs and their least squares fits, mm. The first is the worked example of S. Umeyama, IEEE Trans. PAMI 13(4), 1991;
 * the others were reckoned with a closed form at 40 digits and, apart from it, a singular value decomposition in numpy
 * (largest difference 8e-14), rounded to 10 digits.
 */
export interface PairCase {
  readonly name: string;
  readonly source: readonly (readonly [number, number])[];
  readonly target: readonly (readonly [number, number])[];
  readonly similarity: PairFit;
  readonly rigid: PairFit;
}
export interface PairFit {
  readonly scale: number;
  readonly angleDeg: number;
  readonly shift: readonly [number, number];
  readonly rms: number;
  readonly residuals: readonly number[];
}

export const PAIR_CASES: readonly PairCase[] = [
  {
    name: 'umeyama 1991 worked example',
    source: [
      [0.0, 0.0],
      [1.0, 0.0],
      [0.0, 2.0],
    ],
    target: [
      [0.0, 0.0],
      [-1.0, 0.0],
      [0.0, 2.0],
    ],
    similarity: {
      scale: 0.7211102551,
      angleDeg: -33.69006753,
      shift: [-0.8, 0.4],
      rms: 0.7302967433,
      residuals: [0.894427191, 0.8, 0.4],
    },
    rigid: {
      scale: 1.0,
      angleDeg: -33.69006753,
      shift: [-0.9804835623, 0.2968665358],
      rms: 0.7872451897,
      residuals: [1.024440216, 0.8897438371, 0.1346963788],
    },
  },
  {
    name: 'two pairs, exact',
    source: [
      [0.0, 0.0],
      [400.0, 0.0],
    ],
    target: [
      [12.5, -3.0],
      [412.439079, 3.9809626],
    ],
    similarity: {
      scale: 1.000000002,
      angleDeg: 1.000000001,
      shift: [12.5, -3.0],
      rms: 0.0,
      residuals: [0.0, 0.0],
    },
    rigid: {
      scale: 1.0,
      angleDeg: 1.000000001,
      shift: [12.50000047, -2.999999992],
      rms: 4.688692743e-7,
      residuals: [4.688692743e-7, 4.688692743e-7],
    },
  },
  {
    name: 'two pairs, distance differs',
    source: [
      [0.0, 0.0],
      [400.0, 0.0],
    ],
    target: [
      [0.0, 0.0],
      [400.6, 2.1],
    ],
    similarity: {
      scale: 1.001513761,
      angleDeg: 0.3003495628,
      shift: [0.0, 0.0],
      rms: 0.0,
      residuals: [0.0, 0.0],
    },
    rigid: {
      scale: 1.0,
      angleDeg: 0.3003495628,
      shift: [0.3027479432, 0.001587046133],
      rms: 0.3027521029,
      residuals: [0.3027521029, 0.3027521029],
    },
  },
  {
    name: 'three pairs, known transform',
    source: [
      [0.0, 0.0],
      [360.0, 0.0],
      [0.0, 150.0],
    ],
    target: [
      [5.2, -1.8],
      [365.7091, 2.9193],
      [3.2336, 148.4121],
    ],
    similarity: {
      scale: 1.001499972,
      angleDeg: 0.7499995024,
      shift: [5.199993787, -1.800015089],
      rms: 1.332346775e-5,
      residuals: [1.63178488e-5, 6.276095691e-6, 1.506262966e-5],
    },
    rigid: {
      scale: 1.0,
      angleDeg: 0.7499995024,
      shift: [5.378993355, -1.722666811],
      rms: 0.2757665737,
      residuals: [0.1949847259, 0.3677279621, 0.234304742],
    },
  },
  {
    name: 'three pairs, noisy',
    source: [
      [0.0, 0.0],
      [360.0, 0.0],
      [0.0, 150.0],
    ],
    target: [
      [2.1, 1.05],
      [361.95, 4.2],
      [0.8, 151.1],
    ],
    similarity: {
      scale: 0.9997165174,
      angleDeg: 0.493149512,
      shift: [2.08535503, 1.100147929],
      rms: 0.04265590964,
      residuals: [0.05224260657, 0.02009331022, 0.04822394452],
    },
    rigid: {
      scale: 1.0,
      angleDeg: 0.493149512,
      shift: [2.051460372, 1.085681532],
      rms: 0.06734816612,
      residuals: [0.06024339937, 0.08953212853, 0.04429511522],
    },
  },
  {
    name: 'four truck holes, known transform',
    source: [
      [-180.975, -20.6375],
      [180.975, -20.6375],
      [180.975, 20.6375],
      [-180.975, 20.6375],
    ],
    target: [
      [-180.6048, -16.5592],
      [180.5421, -24.1242],
      [181.4048, 17.0592],
      [-179.7421, 24.6242],
    ],
    similarity: {
      scale: 0.9980000605,
      angleDeg: -1.200008511,
      shift: [0.4, 0.25],
      rms: 1.525202881e-5,
      residuals: [1.525202881e-5, 1.525202881e-5, 1.525202881e-5, 1.525202881e-5],
    },
    rigid: {
      scale: 1.0,
      angleDeg: -1.200008511,
      shift: [0.4, 0.25],
      rms: 0.3642847729,
      residuals: [0.3642723821, 0.3642971633, 0.3642723821, 0.3642971633],
    },
  },
  {
    name: 'four truck holes, noisy',
    source: [
      [-180.975, -20.6375],
      [180.975, -20.6375],
      [180.975, 20.6375],
      [-180.975, 20.6375],
    ],
    target: [
      [-180.62, -24.16],
      [180.81, -16.91],
      [180.28, 24.21],
      [-181.49, 17.34],
    ],
    similarity: {
      scale: 0.9992460698,
      angleDeg: 1.116620185,
      shift: [-0.255, 0.12],
      rms: 0.1426897628,
      residuals: [0.1428584138, 0.1548983102, 0.1425209122, 0.1293338714],
    },
    rigid: {
      scale: 1.0,
      angleDeg: 1.116620185,
      shift: [-0.255, 0.12],
      rms: 0.19803792,
      residuals: [0.2107383914, 0.2882358377, 0.07041004951, 0.156294364],
    },
  },
  {
    name: 'four pairs, one bad point',
    source: [
      [-180.975, -20.6375],
      [180.975, -20.6375],
      [180.975, 20.6375],
      [-180.975, 20.6375],
    ],
    target: [
      [-180.975, -20.6375],
      [180.975, -20.6375],
      [183.975, 20.6375],
      [-180.975, 20.6375],
    ],
    similarity: {
      scale: 1.004091128,
      angleDeg: -0.02662070402,
      shift: [0.75, 0.0],
      rms: 1.060660172,
      residuals: [0.0, 1.490341101, 1.5, 0.1699511782],
    },
    rigid: {
      scale: 1.0,
      angleDeg: -0.02662070402,
      shift: [0.75, 0.0],
      rms: 1.296267168,
      residuals: [0.7451902911, 0.7451509707, 2.242008352, 0.764247531],
    },
  },
  {
    name: 'half turn',
    source: [
      [0.0, 0.0],
      [360.0, 0.0],
      [0.0, 150.0],
    ],
    target: [
      [0.0, 0.0],
      [-360.0, 0.0],
      [0.0, -150.0],
    ],
    similarity: { scale: 1.0, angleDeg: 180.0, shift: [0.0, 0.0], rms: 0.0, residuals: [0.0, 0.0, 0.0] },
    rigid: { scale: 1.0, angleDeg: 180.0, shift: [0.0, 0.0], rms: 0.0, residuals: [0.0, 0.0, 0.0] },
  },
];
