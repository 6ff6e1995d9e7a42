// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The car's drawing as the map of its work: what is forbidden with it now on straps above, the
// place that was touched under a ring, and its words below.
//   car, place (id, or empty for all), placeWords
//   placeTouched(place), allWanted()
Rectangle {
    id: root

    required property CarView car
    required property string place
    required property string placeWords

    signal placeTouched(string place)
    signal allWanted

    radius: Theme.radius
    color: Theme.paper

    CarStraps {
        id: straps

        anchors { left: parent.left; right: parent.right; top: parent.top }
        car: root.car
    }

    CarOutline {
        id: outline

        anchors.centerIn: room
        height: Math.min(room.height, room.width / aspect)
        width: height * aspect
        shape: root.car.shape
        marks: root.car.marks
        interactive: true
        onPlaceTouched: place => root.placeTouched(place)
    }

    // Where the finger was.
    Rectangle {
        readonly property point middle: root.place.length > 0 ? outline.centreOf(root.place) : Qt.point(-1, -1)

        visible: middle.x >= 0
        x: outline.x + middle.x - width / 2
        y: outline.y + middle.y - height / 2
        width: Theme.mm(15)
        height: width
        radius: width / 2
        color: "transparent"
        border.width: Theme.thickLine
        border.color: Theme.accent
    }

    Item {
        id: room

        anchors { left: parent.left; right: parent.right; top: straps.bottom; bottom: placeRow.top; margins: Theme.module }
    }

    Item {
        id: placeRow

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.module }
        height: Theme.touch

        Label {
            anchors { left: parent.left; right: allPlaces.visible ? allPlaces.left : parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
            text: root.place.length > 0 ? root.placeWords : qsTr("Touch a place to see its work.")
            role: root.place.length > 0 ? Label.Reading : Label.Detail
            muted: root.place.length === 0
            strong: root.place.length > 0
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }

        ActionButton {
            id: allPlaces

            anchors.right: parent.right
            visible: root.place.length > 0
            paper: true
            text: qsTr("All places")
            onTapped: root.allWanted()
        }
    }
}
