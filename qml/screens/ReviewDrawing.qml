// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The car with the places of the drafts: filled while one is to be decided, hollow once all are. The
// drawing is that which shows the chosen one. A touch chooses the drafts of a place in turn.
//   review
Rectangle {
    id: root

    required property SpeechReview review

    radius: Theme.radius
    color: Theme.paper

    Item {
        id: room

        anchors { fill: parent; margins: Theme.module; bottomMargin: legend.height + 2 * Theme.module }
    }

    CarOutline {
        id: outline

        anchors.centerIn: room
        height: Math.min(room.height, room.width / aspect)
        width: height * aspect
        shape: root.review.drawing
        opened: root.review.opened
        absent: root.review.walk.absent
        marks: root.review.marks
    }

    MouseArea {
        anchors.fill: room
        onClicked: mouse => {
            const at = mapToItem(outline, mouse.x, mouse.y)
            const place = outline.placeAt(at.x, at.y, Theme.mm(9))
            if (place.length > 0)
                root.review.chooseAt(place)
        }
    }

    // A scheme says what its fields are; the outline needs no words.
    Repeater {
        model: root.review.opened ? null : root.review.change.places

        delegate: Rectangle {
            id: field

            required property string choiceId
            required property string title
            readonly property rect box: outline.width > 0 && outline.shape.length > 0 ? outline.boxOf(choiceId) : Qt.rect(0, 0, 0, 0)
            readonly property point spot: box.width > 0 ? outline.spotOf(choiceId) : Qt.point(-1, -1)
            readonly property bool open: root.review.marks[choiceId] === Wall.Outstanding

            visible: box.width > 0
            x: outline.x + (width > box.width ? spot.x - width / 2 : Math.max(box.x, Math.min(spot.x - width / 2, box.x + box.width - width)))
            y: outline.y + spot.y - height / 2
            border.width: choiceId === root.review.place ? Theme.thickLine : 0
            border.color: open ? Theme.paper : Theme.accent
            width: name.contentWidth + Theme.half + 2 * Theme.thickLine
            height: name.contentHeight + Theme.half
            radius: Theme.radius
            color: open ? Theme.ink : "transparent"

            Label {
                id: name

                anchors.centerIn: parent
                width: Math.max(0, field.box.width - Theme.half - 2 * Theme.thickLine)
                text: field.title
                role: Label.Detail
                color: field.open ? Theme.paper : Theme.ink
                horizontalAlignment: Text.AlignHCenter
                wrapMode: Text.WordWrap
            }
        }
    }

    Rectangle {
        id: ring

        readonly property point spot: root.review.place.length > 0 && outline.width > 0 && outline.shape.length > 0 ? outline.spotOf(root.review.place) : Qt.point(-1, -1)

        visible: root.review.opened && spot.x >= 0
        x: outline.x + spot.x - width / 2
        y: outline.y + spot.y - height / 2
        width: Theme.mm(15)
        height: width
        radius: width / 2
        color: "transparent"
        border.width: Theme.thickLine * 3
        border.color: Theme.paper

        Rectangle {
            anchors { fill: parent; margins: Theme.thickLine }
            radius: width / 2
            color: "transparent"
            border.width: Theme.thickLine
            border.color: Theme.accent
        }
    }

    Column {
        id: legend

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.module }

        Repeater {
            model: [{ filled: true, words: qsTr("to decide") }, { filled: false, words: qsTr("decided") }]

            delegate: Row {
                id: line

                required property var modelData
                readonly property bool filled: modelData["filled"]
                readonly property string words: modelData["words"]

                spacing: Theme.half

                Rectangle {
                    anchors.verticalCenter: parent.verticalCenter
                    width: Theme.mm(4)
                    height: Theme.mm(4)
                    color: line.filled ? Theme.ink : "transparent"
                    border.width: Theme.thickLine
                    border.color: line.filled ? Theme.ink : Theme.accent
                }

                Label {
                    text: line.words
                    role: Label.Detail
                    muted: true
                }
            }
        }
    }
}
