// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma Singleton

import QtQuick

// Sizes, colours and times of the whole wall. The shell sets the three settings at the start; all
// else follows from them. Sizes are in pixels, made out of millimetres on the glass.
//
// Settings:  pxPerMm, dark, lessMotion
// Sizes:     mm(v), touch, touchSafety, gap, module, half, margin, radius, line, thickLine, band
// Type:      family, distanceSize, leastNumberSize, titleSize, readingSize, detailSize (pixels for font.pixelSize)
// Colours:   ground, raised, groundInk, groundInkMuted, groundLine, groundAccent,
//            paper, sunk, ink, inkMuted, paperLine, rule, seam, accent, accentInk, hazard, hazardInk, shade
// Times:     moveTime, tapGuard (milliseconds)
QtObject {
    id: root

    // Pixels per millimetre of the screen as configured: 1920 pixels on 531 mm (24 inch) is 3.6.
    property real pxPerMm: 3.6
    property bool dark: true
    property bool lessMotion: false

    function mm(value: real): real {
        return Math.round(value * root.pxPerMm)
    }

    // Touch: 20 mm for a gloved finger, 25 mm where a release or safety hangs on it, 3 mm between.
    readonly property real touch: mm(20)
    readonly property real touchSafety: mm(25)
    readonly property real gap: mm(3)

    // Spacing: multiples of one module.
    readonly property real module: mm(4)
    readonly property real half: mm(2)
    readonly property real margin: mm(8)
    readonly property real radius: mm(2)
    readonly property real line: Math.max(1, mm(0.3))
    readonly property real thickLine: Math.max(2, mm(0.8))
    readonly property real band: mm(5)

    // Type: heights of capitals in mm. A capital of B612 is 0.75 of its pixel size.
    readonly property real capital: 0.75
    // Whoever shows it adds the files below fonts/ first: a font that is added once there is a window
    // has all its text laid out and drawn once more.
    readonly property string family: "B612 Ramplight"
    readonly property int distanceSize: Math.ceil(17.5 * pxPerMm / capital)
    // What the longest stock numbers shrink to, and not below.
    readonly property int leastNumberSize: Math.ceil(12 * pxPerMm / capital)
    readonly property int titleSize: Math.ceil(7 * pxPerMm / capital)
    readonly property int readingSize: Math.ceil(5 * pxPerMm / capital)
    readonly property int detailSize: Math.ceil(3.4 * pxPerMm / capital)

    // The wall itself and what stands on it.
    readonly property color ground: dark ? "#2A2825" : "#DDD6C8"
    readonly property color raised: dark ? "#3A3732" : "#ECE7DC"
    readonly property color groundInk: dark ? "#F5F1E8" : "#1E1C1A"
    readonly property color groundInkMuted: dark ? "#D0C9BD" : "#43403A"
    readonly property color groundLine: dark ? "#8C857A" : "#77706A"
    readonly property color groundAccent: dark ? "#6CCBC0" : "#07443F"

    // Paper and what is written on it.
    readonly property color paper: dark ? "#F5F1E8" : "#FCFAF5"
    readonly property color sunk: dark ? "#E8E2D5" : "#EFEAE0"
    readonly property color ink: "#1E1C1A"
    readonly property color inkMuted: "#48443D"
    readonly property color paperLine: "#827B70"
    readonly property color rule: "#D3CBBC"
    readonly property color seam: "#6E675D"

    // You can act here.
    readonly property color accent: "#0A5751"
    readonly property color accentPressed: "#063D39"
    readonly property color accentInk: "#F5F1E8"

    // Held by safety (hatch) and cautions (triangle), nothing else.
    readonly property color hazard: "#E9B23A"
    readonly property color hazardInk: "#1E1C1A"

    readonly property color shade: "#B3141312"

    readonly property int moveTime: lessMotion ? 0 : 160
    readonly property int tapGuard: 300
}
