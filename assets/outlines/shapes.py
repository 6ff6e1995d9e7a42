# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Ramplight contributors
"""Measures of the body shapes, in centimetres and shares: what draw.py makes outlines of.

BASE holds what a shape does not say itself. Lengths run from the nose (y = 0) to the tail, half
widths from the middle line.
"""

BASE = dict(
    L=405, W=92, axle_f=78, axle_r=322, arch=37, wheel=31,
    nose_side=0.82, nose_flat=0.66, tail_side=0.80, tail_flat=0.72,
    bumper=14, cowl=118, cowl_bow=11, bonnet_half=69, lamp=(0.34, 0.665, 21, 14),
    roof_f=172, roof_r=330, roof_half_f=50, roof_half_r=49, roof_bow_f=6, roof_bow_r=4,
    door_a=140, door_b=222, door_c=300, belt_f=71, belt_r=71,
    rear_glass_end=310, screen_r=362, screen_half_r=58, screen_bow_r=5,
    rear_lamp=(0.30, 0.62, 17, 21), rear_bumper=14,
    doors=4, sunroof=True, kind="hatch",
)

SHAPES = {
    "hatch": {},
    "saloon": dict(
        L=470, axle_f=86, axle_r=372, cowl=134, roof_f=190, roof_r=318, door_a=157, door_b=238,
        door_c=328, rear_glass_end=334, screen_r=376, screen_half_r=62, screen_bow_r=7,
        roof_half_r=47, roof_bow_r=7, nose_flat=0.62, tail_flat=0.68, kind="saloon",
    ),
    "estate": dict(
        L=472, axle_f=86, axle_r=366, cowl=134, roof_f=188, roof_r=418, door_a=157, door_b=238,
        door_c=326, rear_glass_end=408, third_glass=338, screen_r=446, screen_half_r=57, roof_half_r=50,
        nose_flat=0.62, rails=True, tail_flat=0.76, kind="estate",
    ),
    "suv": dict(
        L=462, W=98, axle_f=84, axle_r=364, arch=41, wheel=35, cowl=130, roof_f=180, roof_r=404,
        bonnet_half=73, roof_half_f=55, roof_half_r=55, belt_f=77, belt_r=77, door_a=152, door_b=236,
        door_c=328, rear_glass_end=396, third_glass=340, screen_r=434, screen_half_r=62, nose_flat=0.76,
        nose_side=0.9, tail_flat=0.80, tail_side=0.88, bumper=17, rear_bumper=17, rails=True,
        cowl_bow=8, kind="suv",
    ),
    "coupe": dict(
        L=452, axle_f=88, axle_r=358, arch=39, wheel=33, cowl=150, cowl_bow=14, roof_f=204, roof_r=296,
        roof_half_f=47, roof_half_r=43, roof_bow_f=8, roof_bow_r=8, belt_f=69, belt_r=66,
        door_a=170, door_b=286, door_c=286, rear_glass_end=330, screen_r=380, screen_half_r=58,
        screen_bow_r=9, nose_flat=0.54, nose_side=0.72, tail_flat=0.62, tail_side=0.76, doors=2,
        sunroof=True, kind="coupe",
    ),
    "convertible": dict(
        L=432, axle_f=84, axle_r=344, cowl=146, cowl_bow=13, roof_f=194, roof_r=300,
        roof_half_f=49, roof_half_r=47, roof_bow_f=7, roof_bow_r=9, belt_f=69, belt_r=68,
        door_a=166, door_b=274, door_c=274, rear_glass_end=306, screen_r=326, screen_half_r=42,
        screen_bow_r=8, nose_flat=0.56, nose_side=0.74, tail_flat=0.64, tail_side=0.78, doors=2,
        sunroof=False, hood=True, kind="convertible",
    ),
    "mpv": dict(
        L=458, W=95, axle_f=80, axle_r=360, cowl=98, cowl_bow=13, roof_f=170, roof_r=412,
        bonnet_half=70, roof_half_f=52, roof_half_r=53, belt_f=75, belt_r=75, door_a=128, door_b=224,
        door_c=326, rear_glass_end=404, third_glass=338, screen_r=436, screen_half_r=60, nose_flat=0.62,
        nose_side=0.84, tail_flat=0.80, tail_side=0.88, kind="mpv",
    ),
    "van": dict(
        L=540, W=100, axle_f=88, axle_r=420, arch=40, wheel=34, cowl=92, cowl_bow=10, roof_f=148,
        roof_r=514, bonnet_half=74, roof_half_f=62, roof_half_r=66, roof_bow_f=5, roof_bow_r=1,
        belt_f=80, belt_r=82, door_a=128, door_b=214, door_c=340, rear_glass_end=0, screen_r=522,
        screen_half_r=62, screen_bow_r=1, nose_flat=0.70, nose_side=0.88, tail_flat=0.90, tail_side=0.92,
        bumper=16, rear_bumper=12, rear_lamp=(0.42, 0.60, 8, 10), sunroof=False, kind="van",
    ),
    "pickup": dict(
        L=535, W=99, axle_f=90, axle_r=414, arch=42, wheel=36, cowl=140, cowl_bow=8, roof_f=190,
        roof_r=312, bonnet_half=74, roof_half_f=55, roof_half_r=56, roof_bow_f=5, roof_bow_r=2,
        belt_f=78, belt_r=78, door_a=160, door_b=236, door_c=318, rear_glass_end=312, screen_r=328,
        screen_half_r=60, screen_bow_r=2, nose_flat=0.78, nose_side=0.9, tail_flat=0.92, tail_side=0.94,
        bumper=18, rear_bumper=14, rear_lamp=(0.34, 0.50, 16, 24), sunroof=False, kind="pickup",
    ),
}
