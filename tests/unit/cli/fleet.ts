/**
 * An invented fleet whose loads are worked out by the lever rule on paper. Cart: 300 kg of tare and two crates of
 * 100 kg, all at 2700 mm; its axle is at 3000 mm, so the axle carries 500 · 2700 / 3000 = 450 kg and the coupling 50 kg.
 * Truck: wheelbase 3000 mm, hitch 1000 mm behind the rear axle, so the 50 kg take 50 · 1000 / 3000 = 16.67 kg off the
 * front axle and put 66.67 kg on the rear axle. Empty, Cart weighs 300 kg: 270 kg on the axle, 30 kg on the coupling.
 */
export const ITEMS = 'item crate 100 kg size 400 x 400 x 400 mm\n';

export const ERRAND = `use "items.rig"

vehicle Truck "Yard truck" {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up
  hitch ball at 1000 mm behind rear, 440 mm up, rating 100 kg
  limits { GVM 2500 kg  GCM 4000 kg  towing 1500 kg }
}

trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm, rating 600 kg
  tare 300 kg at 2700 mm back, 500 mm up
  locker bed from 1500 mm to 3900 mm back, floor 500 mm up
  limits { ATM 750 kg }
  brakes overrun
}

rig Errand "To the yard" {
  tow Truck
  haul Cart
  stow 2 x crate in Cart.bed
  travel 80 km/h, grades -10 % to 5 %, braking 3 m/s²
  case loaded "All on board" {}
  case empty { absent crate }
}
`;

/**
 * A trailer that no rig uses, over its rating of 280 kg. Its 300 kg at 3000 mm rest on the coupling and on two axles of
 * equal springs at 2600 and 3400 mm, which bear in proportion to their distance from the coupling:
 * c · (2600² + 3400²) = 300 · 3000, so 127.7 kg and 167.0 kg, 294.8 kg together.
 */
export const SPARE = `trailer Spare {
  coupling ball 50 mm, 440 mm up
  axles tandem at 3000 mm back, spacing 800 mm, track 1500 mm, rating 280 kg, independent
  tare 300 kg at 3000 mm back, 500 mm up
}
`;

export const FLEET = { 'errand.rig': ERRAND, 'items.rig': ITEMS };
