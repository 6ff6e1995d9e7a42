// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A stock number, to be read from across the shop: in distance type where it has the room. A longer
// one shrinks to the least size, then it stands in two lines of that.
//   number, room: the width that it may take;  head: where its capitals begin
//   foot: where they end, lines: 1 or 2, taken: the width of the last one, least: the width that it
//   wants on one (read only)
Label {
    id: root

    property string number: ""
    property real room: 0
    property real head: 0

    readonly property real natural: Math.ceil(metrics.advanceWidth)
    // Up to seven characters keep distance type.
    readonly property real least: number.length <= 7 ? natural : Math.ceil(natural * Theme.leastNumberSize / Theme.distanceSize)
    readonly property int lines: natural * Theme.leastNumberSize > room * Theme.distanceSize ? 2 : 1
    readonly property real taken: lines > 1 ? Math.ceil(ending.advanceWidth) : width
    readonly property real capitals: Math.round(font.pixelSize * Theme.capital)
    readonly property real foot: head + capitals + (lines - 1) * lineHeight

    // In two at the gap or hyphen that is nearest to its middle.
    function halved(): string {
        const middle = root.number.length / 2
        let best = Math.ceil(middle)
        let away = middle
        for (let at = 1; at < root.number.length; ++at) {
            if (" -/.".includes(root.number[at - 1]) && Math.abs(at - middle) < away) {
                best = at
                away = Math.abs(at - middle)
            }
        }
        return root.number.slice(0, best) + "\n" + root.number.slice(best)
    }

    y: head + capitals - baselineOffset
    width: lines > 1 ? room : Math.min(room, Math.ceil(natural * font.pixelSize / Theme.distanceSize) + 1)
    text: lines > 1 ? root.halved() : root.number
    role: Label.Distance
    font.pixelSize: lines > 1 ? Theme.leastNumberSize
        : Math.max(Theme.leastNumberSize, Math.min(Theme.distanceSize, Math.floor(Theme.distanceSize * room / Math.max(1, natural))))
    maximumLineCount: lines
    lineHeightMode: lines > 1 ? Text.FixedHeight : Text.ProportionalHeight
    lineHeight: lines > 1 ? Theme.mm(14.5) : 1
    elide: Text.ElideRight

    TextMetrics {
        id: metrics

        font.family: Theme.family
        font.pixelSize: Theme.distanceSize
        text: root.number
    }

    TextMetrics {
        id: ending

        font.family: Theme.family
        font.pixelSize: Theme.leastNumberSize
        text: root.lines > 1 ? root.text.slice(root.text.indexOf("\n") + 1) : ""
    }
}
