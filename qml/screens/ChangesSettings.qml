// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk

// What was changed in this house, by whom and when, the last change first.
//   changes
Item {
    id: root

    required property SiteChangesModel changes

    EmptyState {
        anchors.centerIn: parent
        visible: list.count === 0
        paper: true
        title: qsTr("Nothing was changed yet")
    }

    ListView {
        id: list

        anchors.fill: parent
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.changes

        delegate: SettingLine {
            required property int changeId
            required property string byWords
            required title
            required detail

            width: list.width
            value: ""
            note: byWords
            editable: false
        }
    }
}
