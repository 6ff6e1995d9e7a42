// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// What can be touched: at least 20 mm high, answers at once, and takes no second tap within
// 300 ms. Put the picture inside as children.
//   available: false still takes the touch, and says refused() instead of tapped()
//   pressed, resting (a tap would not count yet; both read only), spoken: name for screen readers
//   signals tapped(), refused()
Item {
    id: root

    property bool available: true
    property string spoken: ""
    readonly property bool pressed: area.pressed && area.containsMouse
    readonly property bool resting: guard.running

    signal tapped
    signal refused

    function tap(): void {
        if (guard.running)
            return
        guard.restart()
        if (root.available)
            root.tapped()
        else
            root.refused()
    }

    implicitHeight: Theme.touch
    implicitWidth: Theme.touch
    Accessible.role: Accessible.Button
    Accessible.name: spoken
    Accessible.onPressAction: root.tap()
    Keys.onSpacePressed: root.tap()
    Keys.onReturnPressed: root.tap()
    Keys.onEnterPressed: root.tap()

    MouseArea {
        id: area

        anchors.fill: parent
        onClicked: root.tap()
    }

    Timer {
        id: guard

        interval: Theme.tapGuard
    }
}
