// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Photos from the drop folder and from sticks, with their dates beside the work's; one or several
// are picked by touch.
//   dropped, several, room: the height that there is, count: how many there are
Column {
    id: root

    required property DropModel dropped
    property bool several: true
    property real room: Theme.mm(150)
    readonly property int count: files.count

    spacing: Theme.module

    Item {
        width: parent.width
        height: Theme.touch

        Label {
            anchors { left: parent.left; right: again.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
            text: root.dropped.fault.length > 0 ? root.dropped.fault
                : files.count === 0 ? qsTr("From the drop folder or a stick")
                : root.several ? qsTr("From the drop folder or a stick: touch one or several.")
                : qsTr("From the drop folder or a stick: touch one.")
            strong: root.dropped.fault.length > 0
            muted: root.dropped.fault.length === 0
            wrapMode: Text.WordWrap
        }

        ActionButton {
            id: again

            anchors { right: parent.right; verticalCenter: parent.verticalCenter }
            paper: true
            text: qsTr("Look again")
            onTapped: root.dropped.refresh()
        }
    }

    GridView {
        id: files

        readonly property int across: Math.max(1, Math.floor(width / Theme.mm(64)))

        width: parent.width
        height: count > 0 ? Math.min(Math.ceil(count / across) * cellHeight, root.room - Theme.touch - Theme.module) : 0
        cellWidth: Math.floor(width / across)
        cellHeight: Theme.mm(70)
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        // What nobody sees is not read.
        model: root.visible ? root.dropped : null
        delegate: Item {
            id: cell

            required property string path
            required property string name
            required property string url
            required property string whenWords
            required property string besideWords
            required property string stick
            required property bool picked

            width: files.cellWidth
            height: files.cellHeight

            PhotoTile {
                id: tile

                anchors { left: parent.left; right: parent.right; top: parent.top; bottom: words.top; margins: Theme.half }
                source: cell.url
                caption: cell.stick
                spoken: cell.name
                selected: cell.picked
                onTapped: root.dropped.pick(cell.path, root.several)
            }

            Label {
                id: words

                anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.half; rightMargin: Theme.half }
                // Two lines always, so that the pictures of a row are alike.
                height: lines.height * 2.6
                text: cell.besideWords.length > 0 ? qsTr("%1, %2").arg(cell.whenWords).arg(cell.besideWords) : cell.whenWords
                role: Label.Detail
                wrapMode: Text.WordWrap
                maximumLineCount: 2
                elide: Text.ElideRight
            }
        }
    }

    FontMetrics {
        id: lines

        font.family: Theme.family
        font.pixelSize: Theme.detailSize
    }

    EmptyState {
        anchors.horizontalCenter: parent.horizontalCenter
        visible: files.count === 0 && !root.dropped.busy
        paper: true
        title: qsTr("No photos wait in the drop folder or on a stick")
        hint: qsTr("Put JPEG or PNG files there, or plug in a stick or the camera's card.")
    }
}
