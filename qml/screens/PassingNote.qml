// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Words that go by themselves after a while, or at a touch.
//   text (empty: nothing is shown);  signal gone()
Touchable {
    id: root

    property string text: ""

    signal gone

    visible: text.length > 0
    spoken: text
    implicitWidth: Math.min(words.implicitWidth + 2 * Theme.margin, parent ? parent.width - 2 * Theme.margin : words.implicitWidth)
    implicitHeight: Math.max(Theme.touch, words.implicitHeight + Theme.module)
    onTapped: root.gone()
    onTextChanged: {
        if (root.text.length > 0)
            goes.restart()
    }

    Timer {
        id: goes

        interval: 8000
        onTriggered: root.gone()
    }

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: Theme.paper
        // Seen on the ground and on paper alike.
        border.width: 2 * Theme.thickLine
        border.color: Theme.ink
    }

    Label {
        id: words

        anchors.centerIn: parent
        width: Math.min(implicitWidth, root.parent ? root.parent.width - 4 * Theme.margin : implicitWidth)
        text: root.text
        wrapMode: Text.WordWrap
        horizontalAlignment: Text.AlignHCenter
    }
}
