// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

// What lies in the drop folder when the tour begins: the appraisal of a car that comes in, and what
// somebody said while walking round another one.
namespace ramplight::brought {

constexpr const char* appraisedStock = "T-330";
constexpr const char* appraisalFile = "T-330 appraisal.json";
constexpr const char* appraisal = R"({
  "format": 1,
  "appraiser": "Runa Talbeck",
  "date": "2031-05-15",
  "car": {
    "stock_number": "T-330",
    "registration": "QX 0794 T",
    "vin": "0LMFE12C3DE700330",
    "make": "Lanmoor",
    "model": "Fennel 1.2",
    "body_shape": "hatch",
    "colour": "slate",
    "odometer": {"value": 31870, "unit": "mi"},
    "keys": 2,
    "drive": "petrol",
    "facts": ["combustion-engine"],
    "test_certificate_months": 9,
    "promised": "2031-05-22"
  },
  "findings": [
    {"place": "wheel-rear-left", "condition": "kerbed", "remedies": ["refurbish"]},
    {"place": "front-door-right", "condition": "dent", "severity": "light", "count": 1,
     "size_mm": 20, "remedies": ["dent-repair"]},
    {"place": "bonnet", "condition": "chip", "count": 3, "remedies": ["touch-in"]}
  ],
  "sound": [
    "roof", "tailgate", "front-bumper", "rear-bumper", "windscreen", "wheel-front-left",
    "wheel-front-right", "wheel-rear-right", "steering", "suspension", "brakes-front",
    "brakes-rear", "seat-belts", "horn", "wipers", "headlamp-left", "headlamp-right",
    "warning-lamps"
  ],
  "tyres": [
    {"place": "tyre-front-left", "inner_tenths_mm": 58, "centre_tenths_mm": 60,
     "outer_tenths_mm": 57},
    {"place": "tyre-front-right", "inner_tenths_mm": 57, "centre_tenths_mm": 60,
     "outer_tenths_mm": 57},
    {"place": "tyre-rear-left", "inner_tenths_mm": 62, "centre_tenths_mm": 64,
     "outer_tenths_mm": 62},
    {"place": "tyre-rear-right", "inner_tenths_mm": 61, "centre_tenths_mm": 64,
     "outer_tenths_mm": 62}
  ]
}
)";

/// A car of the demo workshop.
constexpr const char* spokenStock = "T-313";
constexpr const char* spokenFile = "T-313 walk.vtt";
constexpr const char* spokenWords = R"(WEBVTT

00:02.000 --> 00:09.000
This is T 313, the Ulverton Skua, silver. Front bumper has a scuff on the near side corner, paint that.

00:10.000 --> 00:17.000
Bonnet has a few stone chips, touch those in. Windscreen is fine, both headlamps are fine.

00:18.000 --> 00:26.000
Near side front wheel is kerbed quite badly, refurb it. Near side front tyre five millimetres.

00:27.000 --> 00:35.000
Near side rear door has a dent in it. Near side rear tyre is three to four millimetres.

00:36.000 --> 00:44.000
Tailgate has a light scratch above the plate, polish that out. Rear bumper is good.

00:45.000 --> 00:53.000
Off side rear wheel is kerbed as well, just light, refurb. Off side sill is fine.

00:54.000 --> 01:03.000
Driver's seat has a burn on the bolster. Roof is fine, carpets are dirty, so shampoo them.
)";

} // namespace ramplight::brought
