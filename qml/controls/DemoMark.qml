// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Says on every screen that the workshop is made up.
//   text
Rectangle {
    id: root

    property string text: qsTr("Demo workshop: nothing here is real")

    implicitWidth: words.implicitWidth + 2 * Theme.module
    implicitHeight: words.implicitHeight + Theme.half
    color: Theme.ground
    border.width: Theme.line
    border.color: Theme.groundLine
    radius: height / 2

    Label {
        id: words

        anchors.centerIn: parent
        text: root.text
        role: Label.Detail
        paper: false
    }
}
