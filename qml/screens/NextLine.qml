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
    required property string restraintWords
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

        anchors { left: parent.left; leftMargin: Theme.band + root.inset; right: outline.left; rightMargin: root.inset; verticalCenter: parent.verticalCenter }
        height: about.y + about.height

        Label {
            id: stock

            y: Theme.mm(19) - baselineOffset
            width: Math.min(implicitWidth, parent.width * 0.62)
            text: root.stockNumber
            role: Label.Distance
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.titleSize
        }

        // The car must not be touched so yet, whatever the plan says of it.
        Strap {
            id: strap

            anchors { left: stock.right; leftMargin: Theme.mm(8); verticalCenter: stock.verticalCenter }
            visible: text.length > 0
            width: visible ? Math.min(Theme.mm(110), parent.width - stock.width - when.implicitWidth - Theme.mm(16)) : 0
            height: Theme.mm(16)
            text: root.restraintWords
        }

        Label {
            id: when

            anchors { left: strap.right; leftMargin: Theme.mm(8); right: parent.right; baseline: stock.baseline }
            text: root.whenWords
            role: Label.Title
            strong: true
            horizontalAlignment: Text.AlignRight
            elide: Text.ElideRight
        }

        Column {
            id: about

            width: parent.width
            y: Theme.mm(root.grand ? 28 : 24)
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
                maximumLineCount: root.grand ? 4 : root.height > Theme.mm(100) ? 3 : 2
                elide: Text.ElideRight
            }
        }
    }
}
