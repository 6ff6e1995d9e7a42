// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick

// A window with a bare grid of cells, each a rectangle with seven texts, where and as large as the
// wall's grid, for the bench of scrolling.
//   required: place, cellWidth, cellHeight, cardWidth, cardHeight, buffer (pixels), cells,
//   words and sizes (pixels) of the texts
Window {
    id: root

    required property rect place
    required property real cellWidth
    required property real cellHeight
    required property real cardWidth
    required property real cardHeight
    required property int buffer
    required property int cells
    required property list<string> words
    required property list<int> sizes

    visible: true
    color: "black"

    GridView {
        x: root.place.x
        y: root.place.y
        width: root.place.width
        height: root.place.height
        clip: true
        cellWidth: root.cellWidth
        cellHeight: root.cellHeight
        cacheBuffer: root.buffer
        reuseItems: true
        model: root.cells

        delegate: Rectangle {
            id: cell

            required property int index

            width: root.cardWidth
            height: root.cardHeight
            color: "white"

            Text {
                y: 0
                text: root.words[0] + cell.index
                font.pixelSize: root.sizes[0]
            }

            Text {
                y: cell.height * 0.3
                text: root.words[1] + cell.index
                font.pixelSize: root.sizes[1]
            }

            Text {
                y: cell.height * 0.4
                text: root.words[2] + cell.index
                font.pixelSize: root.sizes[2]
            }

            Text {
                y: cell.height * 0.5
                text: root.words[3] + cell.index
                font.pixelSize: root.sizes[3]
            }

            Text {
                y: cell.height * 0.6
                text: root.words[4] + cell.index
                font.pixelSize: root.sizes[4]
            }

            Text {
                y: cell.height * 0.7
                text: root.words[5] + cell.index
                font.pixelSize: root.sizes[5]
            }

            Text {
                y: cell.height * 0.8
                text: root.words[6] + cell.index
                font.pixelSize: root.sizes[6]
            }
        }
    }
}
