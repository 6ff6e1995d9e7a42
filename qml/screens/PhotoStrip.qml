// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Photos in a row, one of them chosen.
//   photos, count, heading, chosen (photoKey);  signal photoChosen(string photoKey)
Item {
    id: root

    required property PhotosModel photos
    property string heading: ""
    property string chosen: ""
    readonly property int count: list.count

    signal photoChosen(string photoKey)

    implicitHeight: words.height + Theme.half + Theme.mm(30)

    Label {
        id: words

        width: parent.width
        text: root.heading
        role: Label.Detail
        paper: false
        muted: true
        elide: Text.ElideRight
    }

    ListView {
        id: list

        anchors { left: parent.left; right: parent.right; top: words.bottom; topMargin: Theme.half; bottom: parent.bottom }
        orientation: ListView.Horizontal
        boundsBehavior: Flickable.DragOverBounds
        clip: true
        spacing: Theme.gap
        model: root.photos

        delegate: PhotoTile {
            id: tile

            required property string photoKey
            required property string url
            required property string byWords

            width: Theme.mm(62)
            height: Theme.mm(30)
            source: url
            caption: byWords
            Accessible.checkable: true
            Accessible.checked: root.chosen === photoKey
            onTapped: root.photoChosen(photoKey)

            Rectangle {
                anchors.fill: parent
                visible: root.chosen === tile.photoKey
                color: "transparent"
                border.width: 2 * Theme.thickLine
                border.color: Theme.groundAccent

                Rectangle {
                    anchors { right: parent.right; top: parent.top }
                    width: Theme.mm(8)
                    height: width
                    color: Theme.groundAccent

                    Icon {
                        anchors.centerIn: parent
                        symbol: Icon.Tick
                        colour: Theme.ground
                        width: Theme.mm(5)
                        height: width
                    }
                }
            }
        }
    }
}
