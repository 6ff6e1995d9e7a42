// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

// The ground of a gallery page; fills what the renderer gives it.
Rectangle {
    id: root

    property string title: ""
    default property alias content: body.data
    readonly property bool tall: height > width
    readonly property real innerWidth: body.width
    readonly property real innerHeight: body.height

    color: Theme.ground

    Label {
        id: heading

        x: Theme.margin
        y: Theme.module
        text: root.title
        role: Label.Title
        paper: false
    }

    Item {
        id: body

        anchors {
            fill: parent
            leftMargin: Theme.margin
            rightMargin: Theme.margin
            bottomMargin: Theme.margin
            topMargin: heading.height + 2 * Theme.module
        }
    }
}
