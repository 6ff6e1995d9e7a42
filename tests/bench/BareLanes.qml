// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick

// A window with a bare flickable of rectangles with a text each, where and as large as the bars of
// the plan, for the bench of dragging it.
//   required: place, wide (pixels of the content), boxes, words, size (pixels) of the texts
Window {
    id: root

    required property rect place
    required property real wide
    required property list<rect> boxes
    required property list<string> words
    required property int size

    visible: true
    color: "black"

    Flickable {
        x: root.place.x
        y: root.place.y
        width: root.place.width
        height: root.place.height
        clip: true
        contentWidth: root.wide

        Repeater {
            model: root.boxes.length

            delegate: Rectangle {
                id: bar

                required property int index

                x: root.boxes[index].x
                y: root.boxes[index].y
                width: root.boxes[index].width
                height: root.boxes[index].height
                color: "ivory"

                Text {
                    width: parent.width
                    text: root.words[bar.index]
                    elide: Text.ElideRight
                    font.pixelSize: root.size
                }
            }
        }
    }
}
