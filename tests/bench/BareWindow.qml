// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick

// A window with so many plain rectangles and texts, for the bench of the start.
//   required: rectangles, texts
Window {
    id: root

    required property int rectangles
    required property int texts
    readonly property int columns: 16

    visible: true
    color: "black"

    Repeater {
        model: root.rectangles

        Rectangle {
            required property int index

            x: index % root.columns * root.width / root.columns
            y: Math.floor(index / root.columns) * root.height * root.columns / root.rectangles
            width: root.width / root.columns - 4
            height: 40
            color: "white"
        }
    }

    Repeater {
        model: root.texts

        Text {
            required property int index

            x: index % root.columns * root.width / root.columns
            y: Math.floor(index / root.columns) * root.height * root.columns / root.texts
            text: "Text " + index
            font.pixelSize: 18
        }
    }
}
