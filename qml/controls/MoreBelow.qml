// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// At the lower edge of a list that scrolls: that it goes on below. Takes no touch.
//   list: the Flickable whose lower edge it lies on;  paper: which ground it stands on
Rectangle {
    id: root

    property Flickable list: null
    property bool paper: true
    readonly property color below: paper ? Theme.paper : Theme.ground

    anchors { left: list ? list.left : undefined; right: list ? list.right : undefined; bottom: list ? list.bottom : undefined }
    height: Theme.mm(10)
    visible: list !== null && list.visible && list.height > 0 && list.contentHeight > list.height + 1 && !list.atYEnd
    gradient: Gradient {
        GradientStop {
            position: 0
            color: Qt.alpha(root.below, 0)
        }
        GradientStop {
            position: 0.7
            color: root.below
        }
    }

    Icon {
        anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom }
        width: Theme.mm(6)
        height: width
        symbol: Icon.Back
        colour: root.paper ? Theme.ink : Theme.groundInk
        rotation: -90
    }
}
