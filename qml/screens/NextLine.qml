// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One of the next operations of somebody: which car and where it stands, what, where on the car, and
// why this. To be read at arm's length.
//   required: roles of MyNext;  grand: the first one, upright, said larger;  signal tapped()
Touchable {
    id: root

    required property int index
    required property string carId
    required property int operationId
    required property string stockNumber
    required property string makeModel
    required property string title
    required property bool inHand
    required property string whenWords
    required property string whereWords
    required property string whyWords
    required property string promisedWords
    required property string lengthWords
    required property string aboutWords
    required property string shape
    required property var marks
    property bool grand: false

    readonly property real inset: Theme.mm(6)

    // What there is of these, with dots between.
    function dotted(parts: list<string>): string {
        return parts.filter(part => part.length > 0).join(" · ")
    }

    spoken: stockNumber + ", " + title

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.pressed ? Theme.sunk : Theme.paper
    }

    StateBand {
        anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
        width: Theme.band
        band: root.inHand ? StateBand.InHand : StateBand.Empty
    }

    CarOutline {
        id: outline

        anchors { right: parent.right; rightMargin: root.inset; verticalCenter: parent.verticalCenter }
        height: Math.min(root.height - Theme.mm(10), Theme.mm(120))
        width: height * aspect
        shape: root.shape
        marks: root.marks
    }

    Item {
        id: words

        anchors { left: parent.left; leftMargin: Theme.band + root.inset; right: outline.left; rightMargin: root.inset; top: parent.top; bottom: parent.bottom }

        Label {
            id: stock

            y: Theme.mm(4 + 17.5) - baselineOffset
            width: Math.min(implicitWidth, parent.width * 0.62)
            text: root.stockNumber
            role: Label.Distance
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.titleSize
        }

        Label {
            anchors { left: stock.right; leftMargin: Theme.mm(8); right: parent.right; baseline: stock.baseline }
            text: root.whenWords
            role: Label.Title
            strong: true
            horizontalAlignment: Text.AlignRight
            elide: Text.ElideRight
        }

        Column {
            width: parent.width
            y: Theme.mm(4 + 17.5 + (root.grand ? 9 : 5))
            spacing: root.grand ? Theme.half : 0

            Label {
                width: parent.width
                text: root.title
                font.pixelSize: Theme.titleSize * (root.grand ? 1.5 : 1)
                wrapMode: root.grand ? Text.WordWrap : Text.NoWrap
                maximumLineCount: root.grand ? 2 : 1
                elide: Text.ElideRight
                fontSizeMode: root.grand ? Text.FixedSize : Text.HorizontalFit
                minimumPixelSize: Theme.readingSize
            }

            Label {
                width: parent.width
                text: root.dotted([root.whereWords, root.lengthWords, root.promisedWords])
                role: root.grand ? Label.Title : Label.Reading
                wrapMode: root.grand ? Text.WordWrap : Text.NoWrap
                maximumLineCount: root.grand ? 2 : 1
                elide: Text.ElideRight
            }

            Label {
                width: parent.width
                text: root.dotted([root.makeModel, root.aboutWords])
                muted: true
                elide: Text.ElideRight
            }

            Label {
                width: parent.width
                topPadding: root.grand ? Theme.half : 0
                text: root.whyWords
                role: root.grand ? Label.Title : Label.Reading
                wrapMode: Text.WordWrap
                maximumLineCount: root.grand ? 4 : 2
                elide: Text.ElideRight
            }
        }
    }
}
