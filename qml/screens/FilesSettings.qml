// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The house and its catalogue as files in the drop folder.
//   files
Item {
    id: root

    required property FilesView files

    Column {
        id: head

        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("Rules, bays, tools and the catalogue can be kept as files, changed elsewhere and taken in again: all of a file, or nothing of it. People are in none of them.")
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.files.said
            strong: root.files.faults.length > 0
            wrapMode: Text.Wrap
        }

        Repeater {
            model: root.files.faults

            delegate: Label {
                required property string modelData
                required property int index

                visible: index < 6
                width: head.width
                text: modelData
                role: Label.Detail
                wrapMode: Text.Wrap
            }
        }
    }

    EmptyState {
        anchors.centerIn: parent
        visible: list.count === 0
        paper: true
        title: qsTr("No file is in the drop folder")
        hint: qsTr("Write this house into it, or put a file there.")
    }

    ListView {
        id: list

        anchors { fill: parent; topMargin: head.height + Theme.module }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.files.files

        delegate: SettingLine {
            required property string path
            required property string name
            required property string whenWords

            width: list.width
            title: name
            detail: whenWords
            value: qsTr("Take in")
            onTapped: root.files.take(path)
        }
    }
}
