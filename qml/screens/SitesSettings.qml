// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// How the sites of the group stand, a line each; to look at only.
//   sites
Item {
    id: root

    required property SitesView sites

    onVisibleChanged: sites.setLooking(visible)
    Component.onCompleted: sites.setLooking(visible)
    Component.onDestruction: sites.setLooking(false)

    Label {
        id: head

        width: parent.width
        visible: text.length > 0
        text: root.sites.asOfWords
        role: Label.Detail
        muted: true
    }

    EmptyState {
        anchors.centerIn: parent
        width: Math.min(parent.width, Theme.mm(160))
        visible: list.count === 0
        paper: true
        title: !root.sites.allowed ? qsTr("Only who may manage sees the other sites") : root.sites.words.length > 0 ? qsTr("The sites cannot be read now") : qsTr("Reading the sites")
        hint: root.sites.allowed ? root.sites.words : ""
    }

    ListView {
        id: list

        anchors { left: parent.left; right: parent.right; top: head.visible ? head.bottom : parent.top; topMargin: head.visible ? Theme.half : 0; bottom: parent.bottom }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.sites.rows

        delegate: SiteLine {
            width: list.width
        }
    }
}
